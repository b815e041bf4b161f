/* The smallest circuits known, in two-input gates of any kind. Three things save gates against the
 * operand row, full adders and overflow gate of a textbook:
 *
 * - Addition and subtraction share a chain in borrow form (see operands.h). Its first bit is 0 in
 *   both, so the first column is a half adder, and the sum needs no inverted operand.
 * - The last column is built around the question whether the chain changes in it: it does where
 *   the operands are alike and differ from it. That is the overflow, which then costs no gate.
 * - Where the carry pin is to show the carry itself, the last column gives that instead of the
 *   chain, without a gate to turn it over.
 *
 * Gates for n bits, n of 2 or more: an adder 5n - 3, minimal for every n (N. P. Red'kin, 1981;
 * restated in Goncharov, Kulikov, Levtsov, "Smaller Circuits for Bit Addition", STACS 2026); an
 * adder-subtractor 6n - 7 for the result, 6n - 4 with overflow, 6n - 3 with carry, with or without
 * overflow. docs/fewest.md has the circuits and what is proven of them. */
#include "gates/structures/structure.h"

#include <assert.h>

/* One column: what enters, and what its gates share. */
typedef struct {
    Netlist *netlist;
    int index;
    Literal a, b;      /* the sum is a XOR b XOR chain */
    Literal x, y;      /* the next bit of the chain is the majority of x, y and chain */
    int made;          /* how many of x and y are a gate that the sum does not read */
    Literal chain;     /* what enters */
    Literal differ;    /* a XOR b */
    Literal propagate; /* x XOR y: the chain goes on as it is */
} Column;

static bool is_gate(const Netlist *netlist, Literal literal) {
    return netlist_is_gate(&netlist->nodes[literal_node(literal)]);
}

/* The sum's operands and the majority's: those of the borrow form, or the operand row's for both.
 * turned tells them apart. */
static Column column_open(Netlist *netlist, const Adder *adder, unsigned i, bool borrow_form) {
    assert(i < adder->width && netlist_has(netlist, adder->carry[i]));
    netlist_enter(netlist, PART_COLUMNS, (int)i);
    Column column = {.netlist = netlist, .index = (int)i, .chain = adder->carry[i]};
    column.a = borrow_form ? adder->a[i] : adder->x[i];
    column.b = borrow_form ? adder->b[i] : adder->y[i];
    column.differ = netlist_xor(netlist, column.a, column.b);
    netlist_mean(netlist, column.differ, ROLE_DIFFER, column.index);
    column.propagate = netlist_xor(netlist, column.differ, adder->turned);
    netlist_mean(netlist, column.propagate, ROLE_PROPAGATE, column.index);
    column.x = borrow_form ? netlist_xor(netlist, column.a, adder->turn_a) : column.a;
    column.y = borrow_form ? netlist_xor(netlist, column.b, adder->turn_b) : column.b;
    netlist_mean(netlist, column.x, ROLE_TURNED_A, column.index);
    netlist_mean(netlist, column.y, ROLE_TURNED_B, column.index);
    netlist->core->x[i] = column.x;
    netlist->core->y[i] = column.y;
    netlist->core->half[i] = column.differ;
    column.made = borrow_form ? is_gate(netlist, column.x) + is_gate(netlist, column.y) : 0;
    return column;
}

/* One of x and y, the one that needs no gate if there is one: their value where they are alike. */
static Literal either(const Column *column) {
    return is_gate(column->netlist, column->y) ? column->x : column->y;
}

/* x AND y: by their difference, which is there anyway, where they themselves are not. */
static Literal generated(const Column *column) {
    bool is_next = column->chain == LITERAL_0;
    int spare = is_next ? 1 : 0; /* then only this would read propagate */
    Literal both = column->made <= spare ? netlist_and(column->netlist, column->x, column->y)
                                         : netlist_and(column->netlist, either(column),
                                                       literal_not(column->propagate));
    if (!is_next)
        netlist_mean(column->netlist, both, ROLE_GENERATED, column->index);
    return both;
}

/* The next bit of the chain, two levels after this one. */
static Literal next(const Column *column) {
    Netlist *netlist = column->netlist;
    if (column->chain == LITERAL_1 || column->y == LITERAL_1)
        return netlist_or(netlist, column->x, column->y == LITERAL_1 ? column->chain : column->y);
    Literal passed = netlist_and(netlist, column->propagate, column->chain);
    Literal both = generated(column);
    netlist_mean(netlist, passed, ROLE_PASSED, column->index);
    return netlist_or(netlist, both, passed);
}

/* The next bit of the chain differs from this one. */
static Literal changes(const Column *column) {
    Netlist *netlist = column->netlist;
    if (column->chain == LITERAL_0)
        return generated(column);
    if (column->chain == LITERAL_1)
        return netlist_and(netlist, literal_not(column->x), literal_not(column->y));
    Literal against = netlist_xor(netlist, either(column), column->chain);
    netlist_mean(netlist, against, ROLE_AGAINST, column->index);
    return netlist_and(netlist, against, literal_not(column->propagate));
}

static void sum(Adder *adder, const Column *column) {
    unsigned i = (unsigned)column->index;
    adder->sum[i] = netlist_xor(column->netlist, column->differ, column->chain);
    netlist_mean(column->netlist, adder->sum[i], ROLE_SUM, column->index);
}

/* The first column where what comes in is the carry, and what leaves is the chain. Its sum needs
 * the line where a middle column does not, and by the same gate a is turned over. */
static void first_column_with_carry(Netlist *netlist, Adder *adder) {
    assert(adder->width > 1 && !adder->carry_leaves && !adder->overflow_read);
    netlist_enter(netlist, PART_COLUMNS, 0);
    Literal a = netlist_xor(netlist, adder->a[0], adder->turned);
    Literal propagated = netlist_xor(netlist, a, adder->b[0]);
    Literal total = netlist_xor(netlist, propagated, adder->first);
    Literal against = netlist_xor(netlist, total, adder->a[0]);
    Literal differs = netlist_and(netlist, propagated, literal_not(against));
    netlist->core->x[0] = a;
    netlist->core->y[0] = adder->b[0];
    adder->sum[0] = total;
    adder->carry[1] = netlist_xor(netlist, a, differs);
    netlist_mean(netlist, a, ROLE_TURNED_A, 0);
    netlist_mean(netlist, propagated, ROLE_PROPAGATE, 0);
    netlist_mean(netlist, total, ROLE_SUM, 0);
    netlist_mean(netlist, against, ROLE_AGAINST, 0);
    netlist_mean(netlist, differs, ROLE_DIFFERS, 0);
    netlist_mean(netlist, adder->carry[1], ROLE_CHAIN, 1);
}

static void last_column(Adder *adder, const Column *column, Role chain) {
    Netlist *netlist = column->netlist;
    Literal *leaves = &adder->carry[column->index + 1];
    sum(adder, column);
    *leaves = next(column);
    if (adder->overflow_read) {
        adder->overflow = changes(column);
        netlist_mean(netlist, adder->overflow, ROLE_OVERFLOWS, -1);
        *leaves = netlist_xor(netlist, column->chain, adder->overflow);
    }
    netlist_mean(netlist, *leaves, chain, column->index + 1);
}

/* The last column of an adder-subtractor whose pin shows the carry. What enters is turned over
 * early, where it serves to tell whether x and y differ. */
static void last_column_with_carry(Adder *adder, const Column *column) {
    assert(column->index + 1 == (int)adder->width && adder->carry_leaves);
    Netlist *netlist = column->netlist;
    bool b_ready = !is_gate(netlist, column->y);
    Literal carry = netlist_xor(netlist, column->chain, adder->turned);
    Literal against = netlist_xor(netlist, b_ready ? column->b : column->a, column->chain);
    Literal total = netlist_xor(netlist, b_ready ? column->a : column->b, against);
    Literal propagated = netlist_xor(netlist, carry, total);
    adder->sum[column->index] = total;
    adder->overflow = netlist_and(netlist, against, literal_not(propagated));
    adder->leaving = netlist_xor(netlist, carry, adder->overflow);
    netlist_mean(netlist, carry, ROLE_CARRY, column->index);
    netlist_mean(netlist, against, ROLE_AGAINST, column->index);
    netlist_mean(netlist, total, ROLE_SUM, column->index);
    netlist_mean(netlist, propagated, ROLE_PROPAGATE, column->index);
    netlist_mean(netlist, adder->overflow, ROLE_OVERFLOWS, -1);
    netlist_mean(netlist, adder->leaving, ROLE_CARRY, column->index + 1);
}

static void build(Netlist *netlist, Adder *adder) {
    if (adder->form != FORM_ANY_KIND) {
        fewest_build_form(netlist, adder);
        return;
    }
    /* The borrow form, unless it is the carry that comes in without a gate: then only where nothing
     * reads it, and the first column can turn it over in passing. */
    bool carry_enters = is_gate(netlist, adder->chain) && !is_gate(netlist, adder->first);
    bool in_passing =
        carry_enters && adder->width > 1 && !adder->carry_leaves && !adder->overflow_read;
    bool borrow_form = !carry_enters || in_passing;
    adder->carry[0] = borrow_form ? adder->chain : adder->first;
    adder->turned = borrow_form ? adder->subtracting : LITERAL_0;
    Role chain = adder->turned == LITERAL_0   ? ROLE_CARRY
                 : adder->turned == LITERAL_1 ? ROLE_BORROW
                                              : ROLE_CHAIN;
    unsigned last = adder->width - 1;
    if (in_passing)
        first_column_with_carry(netlist, adder);
    for (unsigned i = in_passing ? 1 : 0; i < last; i++) {
        Column column = column_open(netlist, adder, i, borrow_form);
        sum(adder, &column);
        adder->carry[i + 1] = next(&column);
        netlist_mean(netlist, adder->carry[i + 1], chain, column.index + 1);
    }
    Column column = column_open(netlist, adder, last, borrow_form);
    /* Without b that column is no smaller, unless overflow is asked for as well. */
    bool turns = adder->carry_leaves && !literal_is_constant(adder->turned) &&
                 (column.b != LITERAL_0 || adder->overflow_read);
    if (turns)
        last_column_with_carry(adder, &column);
    else
        last_column(adder, &column, chain);
}

const StructureMaker fewest_structure = {.build = build};
