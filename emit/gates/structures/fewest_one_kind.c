/* Forms of the smallest circuits for gates of one kind, NAND or NOR, where an XOR is dear and three
 * of its gates serve other ends. Which is smallest depends on what the unit gives: build.c tries
 * all, with the circuit of fewest.c.
 *
 * - Carries as in the ripple chain, but for the first column of an adder-subtractor. Its sum is
 *   a XOR b, and its carry is NAND(NAND(a, b), NAND(m, NAND(not a, b))), two gates beside those of
 *   the XOR; or with b for the inner NAND, which suits NORs. NANDs: 6 for this column, 13 a further
 *   one (an XOR and a full adder of nine).
 * - The chain in borrow form, each column making both the carry and the borrow from the gates of
 *   its two XORs, with m to select between them. NANDs: 8 for the first column, 13 a further one, 8
 *   for the last if only its sum is read, and the inverse of m. */
#include "gates/structures/structure.h"

#include <assert.h>

/* Is this an adder-subtractor that starts with nothing to carry or borrow? Then a and b are such
 * that a subtraction is a - b. */
static bool starts_clean(const Adder *adder, unsigned i, Literal *a, Literal *b) {
    bool turns_b = adder->turn_a == LITERAL_0;
    *a = turns_b ? adder->b[i] : adder->a[i];
    *b = turns_b ? adder->a[i] : adder->b[i];
    return adder->chain == LITERAL_0 && !literal_is_constant(adder->subtracting) &&
           (adder->turn_a == LITERAL_0) != (adder->turn_b == LITERAL_0) &&
           (turns_b ? adder->turn_b : adder->turn_a) == adder->subtracting;
}

static void sum(Netlist *netlist, Adder *adder, unsigned i, Literal differ, Literal carry) {
    adder->sum[i] = netlist_xor(netlist, differ, carry);
    netlist_mean(netlist, adder->sum[i], ROLE_SUM, (int)i);
}

static Literal named_and(Netlist *netlist, Literal x, Literal y, Role role, unsigned i) {
    return netlist_mean(netlist, netlist_and(netlist, x, y), role, (int)i);
}

/* ---- carries ------------------------------------------------------------------------------- */

static void first_column(Netlist *netlist, Adder *adder, Literal a, Literal b, bool for_nors) {
    Literal m = adder->subtracting;
    Literal differ = netlist_xor(netlist, a, b);
    sum(netlist, adder, 0, differ, LITERAL_0);
    Literal borrow = named_and(netlist, literal_not(a), b, ROLE_BORROW_MADE, 0);
    if (for_nors) {
        Literal may = netlist_mean(netlist, netlist_or(netlist, m, b), ROLE_CARRY_MAY_BE, 0);
        adder->carry[1] = netlist_and(netlist, literal_not(borrow), may);
    } else {
        Literal spared = named_and(netlist, m, literal_not(borrow), ROLE_BORROW_SPARED, 0);
        Literal made = named_and(netlist, a, b, ROLE_CARRY_MADE, 0);
        adder->carry[1] = netlist_or(netlist, made, spared);
    }
    netlist_mean(netlist, adder->carry[1], ROLE_CARRY, 1);
}

static void with_carries(Netlist *netlist, Adder *adder, bool for_nors) {
    Literal a, b;
    adder->carry[0] = adder->first;
    if (!starts_clean(adder, 0, &a, &b)) {
        ripple_from(netlist, adder, 0);
        return;
    }
    netlist_enter(netlist, PART_COLUMNS, 0);
    netlist->core->x[0] = adder->x[0];
    netlist->core->y[0] = adder->y[0];
    first_column(netlist, adder, a, b, for_nors);
    ripple_from(netlist, adder, 1);
}

/* ---- the chain in borrow form -------------------------------------------------------------- */

static Literal selected(Netlist *netlist, Literal m, Literal at_1, Literal at_0, unsigned i) {
    Literal high = named_and(netlist, at_1, m, ROLE_BORROW_TAKEN, i);
    Literal low = named_and(netlist, at_0, literal_not(m), ROLE_CARRY_TAKEN, i);
    return netlist_or(netlist, high, low);
}

static void chain_column(Netlist *netlist, Adder *adder, unsigned i) {
    assert(i < adder->width);
    Literal a, b;
    starts_clean(adder, i, &a, &b);
    netlist_enter(netlist, PART_COLUMNS, (int)i);
    Literal differ = netlist_mean(netlist, netlist_xor(netlist, a, b), ROLE_DIFFER, (int)i);
    netlist->core->x[i] = adder->turn_a == LITERAL_0 ? adder->a[i] : LITERAL_NONE;
    netlist->core->y[i] = adder->turn_b == LITERAL_0 ? adder->b[i] : LITERAL_NONE;
    netlist->core->half[i] = differ;
    sum(netlist, adder, i, differ, adder->carry[i]);
    Literal carry = named_and(netlist, a, b, ROLE_CARRY_MADE, i);
    Literal borrow = named_and(netlist, literal_not(a), b, ROLE_BORROW_MADE, i);
    if (i > 0) {
        Literal carried = named_and(netlist, differ, adder->carry[i], ROLE_CARRY_PASSED, i);
        Literal borrowed =
            named_and(netlist, literal_not(differ), adder->carry[i], ROLE_BORROW_PASSED, i);
        carry = netlist_mean(netlist, netlist_or(netlist, carry, carried), ROLE_CARRY_IF_ADDED,
                             (int)i + 1);
        borrow = netlist_mean(netlist, netlist_or(netlist, borrow, borrowed),
                              ROLE_BORROW_IF_SUBTRACTED, (int)i + 1);
    }
    adder->carry[i + 1] = selected(netlist, adder->subtracting, borrow, carry, i);
    netlist_mean(netlist, adder->carry[i + 1], ROLE_CHAIN, (int)i + 1);
}

static void with_chain(Netlist *netlist, Adder *adder) {
    adder->carry[0] = LITERAL_0;
    adder->turned = adder->subtracting;
    for (unsigned i = 0; i < adder->width; i++)
        chain_column(netlist, adder, i);
}

void fewest_build_form(Netlist *netlist, Adder *adder) {
    assert(adder->form != FORM_ANY_KIND);
    Literal a, b;
    if (adder->form == FORM_CHAIN && starts_clean(adder, 0, &a, &b))
        with_chain(netlist, adder);
    else
        with_carries(netlist, adder, adder->form == FORM_CARRIES_FOR_NORS);
}
