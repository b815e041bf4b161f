/* The record of the adder core: every literal means what its place says, against sums worked bit by
 * bit from the operations' definitions, in netlists of gates of any kind and of one kind alone; and
 * the cells of prefix networks are as many, and as deep, as published. */
#include "gates/build.h"
#include "gates/prefix/prefix.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { WIDTH_MAX = 300 };

/* 64 vectors at once: bit v of a word belongs to vector v, each of which asks for an operation of
 * its own. */
typedef struct {
    const Unit *unit;
    const Netlist *netlist;
    const AdderCore *core;
    uint64_t *values;
    uint64_t asked[OP_COUNT]; /* vectors that ask for a choice */
    uint64_t x[WIDTH_MAX], y[WIDTH_MAX];
    uint64_t carry[WIDTH_MAX + 1]; /* of X + Y + first */
    uint64_t result[WIDTH_MAX];
    uint64_t subtracts;
    uint64_t turned; /* what the record's sense says of its carries */
    bool searches;   /* two signals of this unit do not have the same 64 values by chance */
} Case;

/* ---- definitions --------------------------------------------------------------------------- */

static uint64_t next_random(uint64_t *state) {
    *state += UINT64_C(0x9e3779b97f4a7c15); /* splitmix64, Steele and others 2014; from memory */
    uint64_t z = *state;
    z = (z ^ z >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ z >> 27) * UINT64_C(0x94d049bb133111eb);
    return z ^ z >> 31;
}

static uint64_t majority(uint64_t x, uint64_t y, uint64_t z) {
    return (x & y) | (x & z) | (y & z);
}

static uint64_t addend_bit(Addend addend, uint64_t a, uint64_t b) {
    const uint64_t bits[] = {
        [ADDEND_A] = a,      [ADDEND_NOT_A] = ~a, [ADDEND_B] = b,
        [ADDEND_NOT_B] = ~b, [ADDEND_ZEROS] = 0,  [ADDEND_ONES] = ~UINT64_C(0)};
    return bits[addend];
}

static bool is_input(const Case *one, uint32_t k) {
    return k < one->netlist->node_count && one->netlist->nodes[k].kind == NODE_INPUT;
}

/* The vectors' choices at the control pins, those of a value that selects nothing where idle. */
static void drive_control(Case *one, uint64_t *state, bool idle) {
    const Unit *unit = one->unit;
    memset(one->asked, 0, sizeof one->asked);
    uint32_t nothing = 0;
    while (idle && unit_control_choice(unit, nothing) != UNIT_NOTHING)
        nothing++;
    for (int v = 0; v < 64; v++) {
        int choice = (int)(next_random(state) % (unsigned)unit->choice_count);
        uint32_t value = idle ? nothing : unit_control_value(unit, choice);
        if (!idle)
            one->asked[choice] |= UINT64_C(1) << v;
        uint32_t bit = 0;
        for (uint32_t k = 1; is_input(one, k); k++) {
            const Node *node = &one->netlist->nodes[k];
            if (node->pin >= PIN_CIN)
                break;
            uint32_t at = node->pin == PIN_OP ? node->bit : bit++;
            uint64_t mask = UINT64_C(1) << v;
            one->values[k] = (one->values[k] & ~mask) | (value >> at & 1 ? mask : 0);
        }
    }
}

/* X, Y and first, from what the operations' rows say. */
static void define_operands(Case *one, const uint64_t *a, const uint64_t *b, uint64_t cin) {
    const Unit *unit = one->unit;
    memset(one->x, 0, sizeof one->x);
    memset(one->y, 0, sizeof one->y);
    one->carry[0] = one->subtracts = 0;
    for (int k = 0; k < unit->choice_count; k++) {
        const OperationFacts *facts = operation_facts(unit->choice[k].operation);
        bool borrow = facts->subtracts && unit->sense == SENSE_BORROW;
        uint64_t asked = one->asked[k];
        for (unsigned i = 0; i < unit->width; i++) {
            one->x[i] |= asked & addend_bit(facts->x, a[i], b[i]);
            one->y[i] |= asked & addend_bit(facts->y, a[i], b[i]);
        }
        one->carry[0] |= facts->first == ENTERS_1     ? asked
                         : facts->first == ENTERS_CIN ? asked & (borrow ? ~cin : cin)
                                                      : 0;
        one->subtracts |= facts->subtracts ? asked : 0;
    }
    for (unsigned i = 0; i < unit->width; i++)
        one->carry[i + 1] = majority(one->x[i], one->y[i], one->carry[i]);
}

static uint64_t sum_bit(const Case *one, unsigned i) {
    return one->x[i] ^ one->y[i] ^ one->carry[i];
}

static uint64_t overflow_of(const Case *one) {
    return one->carry[one->unit->width] ^ one->carry[one->unit->width - 1];
}

static uint64_t below_zero(const Case *one) {
    return sum_bit(one, one->unit->width - 1) ^ overflow_of(one);
}

static void define_result(Case *one) {
    unsigned n = one->unit->width;
    uint64_t low = one->subtracts & ~one->carry[n], high = ~one->subtracts & one->carry[n];
    for (unsigned i = 0; i < n; i++) {
        uint64_t sum = sum_bit(one, i), at_limit = i == n - 1 ? below_zero(one) : ~below_zero(one);
        one->result[i] = sum;
        if (one->unit->overflow == OVERFLOW_SATURATE_SIGNED)
            one->result[i] = (overflow_of(one) & at_limit) | (~overflow_of(one) & sum);
        if (one->unit->overflow == OVERFLOW_SATURATE_UNSIGNED)
            one->result[i] = (sum | high) & ~low;
    }
}

static uint64_t flag_bit(const Case *one, Flag flag) {
    unsigned n = one->unit->width;
    uint64_t any = 0, odd = 0, turn = one->unit->sense == SENSE_BORROW ? one->subtracts : 0;
    for (unsigned i = 0; i < n; i++) {
        any |= one->result[i];
        odd ^= one->result[i];
    }
    switch (flag) {
    case FLAG_CARRY:
        return one->carry[n] ^ turn;
    case FLAG_OVERFLOW:
        return overflow_of(one);
    case FLAG_ZERO:
        return ~any;
    case FLAG_NEGATIVE:
        return one->result[n - 1];
    case FLAG_LESS_SIGNED:
        return below_zero(one);
    case FLAG_LESS_UNSIGNED:
        return one->subtracts & ~one->carry[n];
    case FLAG_PARITY:
        return odd;
    case FLAG_HALF_CARRY:
        return one->carry[4] ^ turn;
    }
    return 0;
}

/* Draws a vector's inputs, has the netlist work on them, and works out what must come of it. */
static void try_vectors(Case *one, uint64_t *state, bool idle) {
    uint64_t a[WIDTH_MAX] = {0}, b[WIDTH_MAX] = {0}, cin = 0;
    for (uint32_t k = 1; is_input(one, k); k++) {
        const Node *node = &one->netlist->nodes[k];
        uint64_t drawn = one->values[k] = next_random(state);
        if (node->pin == PIN_CIN)
            cin = drawn;
        if (node->pin == PIN_A || node->pin == PIN_B)
            (node->pin == PIN_A ? a : b)[node->bit] = drawn;
    }
    drive_control(one, state, idle);
    netlist_evaluate(one->netlist, one->values);
    define_operands(one, a, b, cin);
    define_result(one);
    static const bool known[] = {[CORE_CARRIES] = false,
                                 [CORE_NO_CARRIES] = true,
                                 [CORE_BORROWS] = true,
                                 [CORE_CARRIES_OR_BORROWS] = false};
    one->turned = one->core->sense == CORE_CARRIES_OR_BORROWS ? one->subtracts
                  : known[one->core->sense]                   ? ~UINT64_C(0)
                                                              : 0;
}

/* ---- the literals -------------------------------------------------------------------------- */

static uint64_t level(const Case *one, Literal literal) {
    return netlist_value(one->values, literal);
}

static void expect(const Case *one, uint32_t k, const char *what, Literal literal,
                   uint64_t expected) {
    if (literal != LITERAL_NONE && level(one, literal) != expected)
        fail_msg("%s, %s, %s: %s %u is not what it says", one->unit->name,
                 structure_name(one->unit->structure), detail_name(one->unit->detail), what, k);
}

/* The same, and where there is no such wire, no gate has this value or its complement. */
static void expect_all(const Case *one, uint32_t k, const char *what, Literal literal,
                       uint64_t expected) {
    expect(one, k, what, literal, expected);
    for (uint32_t node = 1;
         one->searches && literal == LITERAL_NONE && node < one->netlist->node_count; node++)
        if (netlist_is_gate(&one->netlist->nodes[node]) &&
            (one->values[node] == expected || one->values[node] == ~expected))
            fail_msg("%s, %s, %s: %s %u is gate %u", one->unit->name,
                     structure_name(one->unit->structure), detail_name(one->unit->detail), what, k,
                     node);
}

/* The carry out of columns top ... bottom, in the sense of the core, when this one enters them. */
static uint64_t carry_past(const Case *one, int top, int bottom, uint64_t carry) {
    for (int i = bottom; i <= top; i++)
        carry = majority(one->x[i] ^ one->turned, one->y[i] ^ one->turned, carry);
    return carry;
}

/* `passes` may be "exactly one of the two" or "at least one": together with generates it is what
 * comes out when a carry enters. */
static void check_cell(const Case *one, uint32_t k) {
    const CoreCell *cell = &one->core->cell[k];
    int top = cell->top, bottom = cell->bottom;
    uint64_t first = one->carry[0] ^ one->turned;
    if (cell->kind == CORE_FIRST) {
        expect(one, k, "first cell", cell->generates, first);
        return;
    }
    bool of_span = cell->kind == CORE_COLUMN || cell->kind == CORE_JOIN || cell->kind == CORE_PAIR;
    expect(one, k, "generates of cell", cell->generates,
           of_span ? carry_past(one, top, bottom, 0) : carry_past(one, top, 0, first));
    if (cell->passes == LITERAL_NONE)
        return;
    assert_true(of_span);
    uint64_t either = level(one, cell->passes);
    if (cell->kind != CORE_PAIR && cell->generates != LITERAL_NONE)
        either |= level(one, cell->generates);
    if (cell->generates != LITERAL_NONE && either != carry_past(one, top, bottom, ~UINT64_C(0)))
        fail_msg("%s: passes of cell %u is not what it says", one->unit->name, k);
}

static void check_columns(const Case *one) {
    const AdderCore *core = one->core;
    unsigned n = core->width;
    for (unsigned i = 0; i < n; i++) {
        expect(one, i, "added_x", core->added_x[i], one->x[i]);
        expect(one, i, "added_y", core->added_y[i], one->y[i]);
        expect(one, i, "x", core->x[i], one->x[i] ^ one->turned);
        expect(one, i, "y", core->y[i], one->y[i] ^ one->turned);
        expect(one, i, "half", core->half[i], one->x[i] ^ one->y[i] ^ one->turned);
        expect_all(one, i, "sum", core->sum[i], sum_bit(one, i));
        expect_all(one, i, "carry", core->carry[i], one->carry[i] ^ one->turned);
        expect(one, i, "result", core->result[i], one->result[i]);
    }
    expect_all(one, n, "carry", core->carry[n], one->carry[n] ^ one->turned);
    expect_all(one, n, "leaving", core->leaving, one->carry[n]);
    expect(one, 0, "first", core->first, one->carry[0]);
    expect(one, 0, "turned", core->turned, one->turned);
    expect(one, 0, "overflow", core->overflow, overflow_of(one));
    expect(one, 0, "below_zero", core->below_zero, below_zero(one));
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (one->unit->flag[flag])
            expect(one, (uint32_t)flag, "plain flag", core->flag[flag].plain,
                   flag_bit(one, (Flag)flag));
}

/* The control signals are what the plan of each operation says; where it says nothing, anything. */
static void check_signals(const Case *one) {
    for (int signal = 0; signal < SIGNAL_COUNT; signal++) {
        SignalPlan plan = operands_signal(one->unit, (Signal)signal);
        Literal literal = one->core->signal[signal];
        for (int k = 0; k < one->unit->choice_count && literal != LITERAL_NONE; k++) {
            uint64_t wanted = plan.on >> k & 1 ? one->asked[k] : 0;
            if ((plan.free >> k & 1) == 0 && (level(one, literal) & one->asked[k]) != wanted)
                fail_msg("%s: %s is not what it says", one->unit->name,
                         role_text(role_of_signal((Signal)signal)));
        }
    }
}

/* The pins are the record's flags and result, also where nothing is requested. */
static void check_outputs(const Case *one, bool idle) {
    for (uint32_t k = 0; k < one->netlist->output_count; k++) {
        const Output *output = &one->netlist->outputs[k];
        bool flag = output->pin >= PIN_FLAG;
        Literal recorded =
            flag ? one->core->flag[pin_flag(output->pin)].masked : one->core->result[output->bit];
        assert_int_equal(recorded, output->literal);
        uint64_t cleared = flag && pin_flag(output->pin) == FLAG_ZERO ? ~UINT64_C(0) : 0;
        uint64_t defined = flag ? flag_bit(one, pin_flag(output->pin)) : one->result[output->bit];
        assert_true(level(one, output->literal) == (idle ? cleared : defined));
    }
}

/* What a cell reads is there before it and one level above it; carries come from cells. */
static void check_shape(const Case *one) {
    const AdderCore *core = one->core;
    for (uint32_t k = 0; k < core->cell_count; k++) {
        const CoreCell *cell = &core->cell[k];
        unsigned deepest = 0;
        for (int in = 0; in < cell->in_count; in++) {
            assert_true(cell->in[in] < k);
            unsigned depth = core->cell[cell->in[in]].level + 1;
            deepest = depth > deepest ? depth : deepest;
        }
        assert_int_equal(cell->level, deepest);
        if (cell->in_count > 0)
            assert_int_equal(core->cell[cell->in[0]].top, cell->top);
        for (int in = 1; in < cell->in_count; in++)
            assert_int_equal(core->cell[cell->in[in]].top, core->cell[cell->in[in - 1]].bottom - 1);
    }
    for (unsigned i = 0; i <= core->width && core->cell_count > 0; i++) {
        Literal carry = core->carry[i];
        if (carry == LITERAL_NONE || literal_is_constant(carry))
            continue;
        assert_true(core->giver[i] != CORE_NO_CELL);
        assert_int_equal(core->cell[core->giver[i]].generates, carry);
        assert_int_equal(core->cell[core->giver[i]].top, (int)i - 1);
    }
}

/* A gate whose role is one of these has that value, or its complement where it says so. */
static void check_roles(const Case *one) {
    for (uint32_t k = 1; k < one->netlist->node_count; k++) {
        const Node *node = &one->netlist->nodes[k];
        unsigned i = (unsigned)node->index;
        uint64_t value = node->complement ? ~one->values[k] : one->values[k];
        bool steps = node->help != HELP_NONE && node->help != HELP_INVERSE, right = true;
        if (!netlist_is_gate(node) || steps)
            continue;
        if (node->role == ROLE_CARRY)
            right = value == one->carry[i];
        if (node->role == ROLE_BORROW || node->role == ROLE_NO_CARRY)
            right = value == ~one->carry[i];
        if (node->role == ROLE_CHAIN || node->role == ROLE_CARRY_OR_BORROW)
            right = value == (one->carry[i] ^ one->subtracts);
        if (node->role == ROLE_SUM)
            right = value == sum_bit(one, i);
        if (node->role == ROLE_OVERFLOWS)
            right = value == overflow_of(one);
        if (node->role == ROLE_BELOW_ZERO)
            right = value == below_zero(one);
        if (node->role == ROLE_OPERAND_A)
            right = value == one->x[i];
        if (node->role == ROLE_OPERAND_B)
            right = value == one->y[i];
        if (node->role == ROLE_FIRST_CARRY)
            right = value == one->carry[0];
        if (!right)
            fail_msg("%s, %s, %s: gate %u is no %s %d", one->unit->name,
                     structure_name(one->unit->structure), detail_name(one->unit->detail), k,
                     role_text(node->role), node->index);
    }
}

static void make(Unit *unit, Structure structure, unsigned width, const char *operations) {
    static const char letters[] = "aAsSridnp"; /* in the order of Operation */
    Problem problem = {STATUS_DONE, ""};
    unit_init(unit);
    unit->width = width;
    unit->structure = structure;
    unit->depth = 9;
    for (const char *letter = operations; *letter != '\0'; letter++)
        unit->choice[unit->choice_count++].operation =
            (Operation)(strchr(letters, *letter) - letters);
    unit->flag[FLAG_OVERFLOW] = width % 2 == 0;
    unit->flag[FLAG_CARRY] = width % 3 != 0;
    unit->sense = width % 4 < 2 ? SENSE_BORROW : SENSE_NO_BORROW;
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
}

static void check(const Unit *unit) {
    Netlist netlist;
    static Case one;
    uint64_t state = unit->width;
    build_netlist(unit, &netlist);
    one = (Case){.unit = unit, .netlist = &netlist, .core = netlist.core};
    one.searches = unit->width > 3 && unit_any_reads_b(unit);
    one.values = calloc(netlist.node_count, sizeof(uint64_t));
    check_shape(&one);
    for (int round = 0; round < 2; round++) {
        try_vectors(&one, &state, false);
        check_columns(&one);
        check_signals(&one);
        check_outputs(&one, false);
        check_roles(&one);
        for (uint32_t k = 0; k < one.core->cell_count; k++)
            check_cell(&one, k);
    }
    if (unit_can_idle(unit)) {
        try_vectors(&one, &state, true);
        check_outputs(&one, true);
    }
    free(one.values);
    netlist_free(&netlist);
}

/* The last ones are none of STRUCTURE_FEWEST's. */
static const char *const sets[] = {"as", "a",  "AS", "s",  "d",         "n",  "i",
                                   "p",  "rs", "id", "ip", "aAsSridnp", "Ad", "asd"};
enum { SETS = sizeof sets / sizeof sets[0], FEWEST_SETS = 10 };

/* Of all structures and details, all flags where the bits of the number say so. */
static void check_flags(size_t set, unsigned width, unsigned number) {
    static Unit unit;
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (int detail = DETAIL_GATES; detail <= DETAIL_NOR; detail++) {
            Problem problem = {STATUS_DONE, ""};
            if (structure == STRUCTURE_FEWEST && set >= FEWEST_SETS)
                continue;
            make(&unit, (Structure)structure, width, sets[set]);
            unit.detail = (Detail)detail;
            for (int flag = 0; flag < FLAG_COUNT; flag++)
                unit.flag[flag] =
                    (number >> flag & 1) != 0 && (flag != FLAG_HALF_CARRY || width > 3);
            unit.overflow = (Overflow)(number % 3);
            unit.sense = number & 4 ? SENSE_BORROW : SENSE_NO_BORROW;
            if (!unit_settle(&unit, &problem))
                fail_msg("%s", problem.text);
            check(&unit);
        }
}

static void test_meanings(void **state) {
    (void)state;
    static Unit unit;
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (unsigned width = 1; width <= 33; width += width < 9 ? 1 : 4)
            for (size_t k = 0; k < (structure == STRUCTURE_FEWEST ? FEWEST_SETS : SETS); k++) {
                make(&unit, (Structure)structure, width, sets[k]);
                check(&unit);
            }
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++) {
        make(&unit, (Structure)structure, 300, "as");
        check(&unit);
    }
}

static void test_flags_and_kinds(void **state) {
    (void)state;
    static const unsigned widths[] = {1, 2, 3, 4, 5, 8, 13};
    for (size_t w = 0; w < sizeof widths / sizeof widths[0]; w++)
        for (size_t k = 0; k < SETS; k++) {
            check_flags(k, widths[w], 0xff);
            check_flags(k, widths[w], 0);
            check_flags(k, widths[w], (unsigned)(73 * k + 29 * w + 1) & 0xff);
        }
}

/* ---- how many ------------------------------------------------------------------------------ */

/* Cells of a prefix network of n columns that are there, and their levels. */
static void count(Structure structure, unsigned n, unsigned *cells, unsigned *levels,
                  unsigned *carries) {
    static Unit unit;
    Netlist netlist;
    make(&unit, structure, n, "as");
    unit.flag[FLAG_CARRY] = true;
    build_netlist(&unit, &netlist);
    *cells = *levels = *carries = 0;
    for (uint32_t k = 0; k < netlist.core->cell_count; k++) {
        const CoreCell *cell = &netlist.core->cell[k];
        if (cell->level == 0 || !core_cell_is_there(cell))
            continue;
        ++*cells;
        *carries += cell->kind == CORE_CARRY;
        *levels = cell->level > *levels ? cell->level : *levels;
        assert_int_equal(cell->passes == LITERAL_NONE, cell->kind == CORE_CARRY);
    }
    assert_int_equal(*cells, netlist.core->prefix->cell_count);
    netlist_free(&netlist);
}

static unsigned fibonacci(unsigned n) {
    return n <= 2 ? 1 : fibonacci(n - 1) + fibonacci(n - 2);
}

/* Sklansky 1960; Kogge and Stone 1973; Brent and Kung 1982 (levels from memory); Han and Carlson
 * 1987, Ladner and Fischer 1980 (from memory). All carries but that of column 0 come from a cell
 * that only generates, and only they do. */
static void test_published_counts(void **state) {
    (void)state;
    unsigned log = 2, cells, levels, carries;
    for (unsigned n = 4; n <= 128; n *= 2, log++) {
        const struct {
            Structure structure;
            unsigned cells, levels;
        } published[] = {
            {STRUCTURE_SKLANSKY, n / 2 * log, log},
            {STRUCTURE_KOGGE_STONE, n * log - n + 1, log},
            {STRUCTURE_BRENT_KUNG, 2 * n - 2 - log, 2 * log - 2},
            {STRUCTURE_HAN_CARLSON, n / 2 * log, n == 4 ? log : log + 1},
            {STRUCTURE_LADNER_FISCHER, 4 * n - fibonacci(5 + log) + 1, log},
        };
        for (size_t k = 0; k < sizeof published / sizeof published[0]; k++) {
            count(published[k].structure, n, &cells, &levels, &carries);
            assert_int_equal(cells, published[k].cells);
            assert_int_equal(levels, published[k].levels);
            assert_int_equal(carries, n - 1);
        }
    }
}

/* What no flag reads is gone: the carry out of the last column, and its cell. */
static void test_what_is_not_read_is_gone(void **state) {
    (void)state;
    static Unit unit;
    Netlist netlist;
    make(&unit, STRUCTURE_KOGGE_STONE, 9, "as"); /* neither carry nor overflow */
    build_netlist(&unit, &netlist);
    assert_true(netlist.core->carry[9] == LITERAL_NONE);
    for (uint32_t k = 0; k < netlist.core->cell_count; k++)
        assert_true(netlist.core->cell[k].top != 8 || netlist.core->cell[k].level == 0 ||
                    !core_cell_is_there(&netlist.core->cell[k]));
    netlist_free(&netlist);
}

/* Groups cover the columns without a gap; skip's are alike, select's grow by one, lookahead's are
 * of four, in tiers. */
static void test_groups(void **state) {
    (void)state;
    static Unit unit;
    for (int structure = STRUCTURE_SKIP; structure <= STRUCTURE_LOOKAHEAD; structure++) {
        Netlist netlist;
        make(&unit, (Structure)structure, 27, "as");
        build_netlist(&unit, &netlist);
        unsigned next = 0, tiers = 0;
        for (uint32_t k = 0; k < netlist.core->group_count; k++) {
            const CoreGroup *group = &netlist.core->group[k];
            next = group->tier > tiers ? 0 : next;
            tiers = group->tier;
            assert_int_equal(group->bottom, next);
            unsigned size = structure == STRUCTURE_SKIP     ? 4
                            : structure == STRUCTURE_SELECT ? 2 + k
                                                            : 1u << 2 * tiers;
            next = next + size < 27 ? next + size : 27;
            assert_int_equal(group->top + 1, next);
        }
        assert_int_equal(next, 27);
        assert_int_equal(tiers, structure == STRUCTURE_LOOKAHEAD ? 3 : 1);
        netlist_free(&netlist);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_meanings),         cmocka_unit_test(test_flags_and_kinds),
        cmocka_unit_test(test_published_counts), cmocka_unit_test(test_what_is_not_read_is_gone),
        cmocka_unit_test(test_groups),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
