/* The smallest circuits known: what they compute, against the model, and how many gates they take,
 * against published and proven counts, for every width up to 6 and every set of flags. */
#include "meeting.h"

#include "gates/netlist/cost.h"

#include <stdio.h>

static const Operation only_add[] = {OP_ADD}, only_sub[] = {OP_SUB}, only_rsb[] = {OP_RSB};
static const Operation add_sub[] = {OP_ADD, OP_SUB}, sub_add[] = {OP_SUB, OP_ADD};

static void make(Unit *unit, unsigned width, int count, const Operation *operations) {
    unit_init(unit);
    unit->width = width;
    unit->structure = STRUCTURE_FEWEST;
    unit->choice_count = count;
    for (int k = 0; k < count; k++)
        unit->choice[k].operation = operations[k];
}

/* The flags whose bits are set, for those that the width has. */
static void set_flags(Unit *unit, unsigned flags) {
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] = (flags >> flag & 1) != 0 && (flag != FLAG_HALF_CARRY || unit->width > 3);
}

static void settle(Unit *unit) {
    Problem problem = {STATUS_DONE, ""};
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
}

static Cost cost_of(const Unit *unit) {
    Netlist netlist;
    build_netlist(unit, &netlist);
    Cost cost = cost_count(&netlist);
    netlist_free(&netlist);
    return cost;
}

enum {
    CARRY = 1u << FLAG_CARRY,
    OVERFLOWS = 1u << FLAG_OVERFLOW,
    ZERO = 1u << FLAG_ZERO,
    NEGATIVE = 1u << FLAG_NEGATIVE,
    MAIN_FLAGS = 16, /* sets of these four */
};

/* ---- counts ------------------------------------------------------------------------------- */

/* A tree of OR over the bits, the last one turned over; negative is a bit of the result. */
static unsigned zero_gates(unsigned n, unsigned flags) {
    return flags & ZERO ? n - 1 : 0;
}

/* One operation. With carry, N. P. Red'kin's 5n - 3 of 1981, minimal for every n (restated in
 * Goncharov, Kulikov, Levtsov, "Smaller Circuits for Bit Addition", STACS 2026), in which the last
 * AND is the overflow; without, that column's last gates are gone. */
static unsigned alone_gates(unsigned n, unsigned flags) {
    unsigned without_zero = flags & CARRY ? 5 * n - 3 : flags & OVERFLOWS ? 5 * n - 4 : 5 * n - 6;
    if (n == 1)
        without_zero = flags & (CARRY | OVERFLOWS) ? 2 : 1;
    return without_zero + zero_gates(n, flags);
}

/* Add and sub with one line: minimal at n = 2 by exhaustive search (tests/outside/smallest_test.sh
 * repeats it), the column of six gates minimal for what it reads and gives. */
static unsigned pair_gates(unsigned n, Sense sense, unsigned flags) {
    unsigned without_zero = flags & CARRY ? 6 * n - 3 : flags & OVERFLOWS ? 6 * n - 4 : 6 * n - 7;
    if (n == 1)
        without_zero = flags & CARRY && sense == SENSE_NO_BORROW ? 4
                       : flags & (CARRY | OVERFLOWS)             ? 3
                                                                 : 1;
    return without_zero + zero_gates(n, flags);
}

static void test_one_operation_has_the_proven_minimum(void **state) {
    (void)state;
    static Unit unit;
    const Operation *const operations[] = {only_add, only_sub, only_rsb};
    for (int k = 0; k < 3; k++)
        for (int sense = 0; sense < SENSE_COUNT; sense++)
            for (unsigned n = 1; n <= 64; n++)
                for (unsigned flags = 0; flags < MAIN_FLAGS; flags++) {
                    make(&unit, n, 1, operations[k]);
                    set_flags(&unit, flags);
                    unit.sense = (Sense)sense;
                    settle(&unit);
                    assert_int_equal(cost_of(&unit).gates, alone_gates(n, flags));
                }
}

static void test_the_adder_subtractor_has_the_counts_of_the_table(void **state) {
    (void)state;
    static Unit unit;
    for (int control = CONTROL_HIGH; control <= CONTROL_LOW; control++)
        for (int sense = 0; sense < SENSE_COUNT; sense++)
            for (unsigned n = 1; n <= 64; n++)
                for (unsigned flags = 0; flags < MAIN_FLAGS; flags++) {
                    make(&unit, n, 2, n % 2 == 0 ? add_sub : sub_add);
                    set_flags(&unit, flags);
                    unit.control = (Control)control;
                    unit.sense = (Sense)sense;
                    settle(&unit);
                    Cost cost = cost_of(&unit);
                    assert_int_equal(cost.gates, pair_gates(n, unit.sense, flags));
                    if (n > 1)
                        assert_int_equal(cost.pin_inverters, 0);
                }
}

/* No slower than rippling: two levels a column in the middle. */
static void test_levels_grow_by_two_a_column(void **state) {
    (void)state;
    static Unit unit;
    for (unsigned n = 2; n <= 64; n++) {
        make(&unit, n, 1, only_add);
        set_flags(&unit, CARRY);
        settle(&unit);
        assert_int_equal(cost_of(&unit).levels, 2 * n - 1);
        make(&unit, n, 2, add_sub);
        set_flags(&unit, CARRY);
        unit.sense = SENSE_BORROW;
        settle(&unit);
        assert_int_equal(cost_of(&unit).levels, 2 * n);
    }
}

static void test_the_widest(void **state) {
    (void)state;
    static Unit unit;
    make(&unit, UNIT_WIDTH_MAX, 2, add_sub);
    settle(&unit);
    assert_int_equal(cost_of(&unit).gates, 7 * UNIT_WIDTH_MAX - 4);
}

/* ---- functions ---------------------------------------------------------------------------- */

static void meet_with_flags(unsigned n, int count, const Operation *operations, unsigned flags,
                            Overflow overflow) {
    static Unit unit;
    for (int control = CONTROL_HIGH; control <= CONTROL_LOW; control++)
        for (int sense = 0; sense < SENSE_COUNT; sense++) {
            make(&unit, n, count, operations);
            set_flags(&unit, flags);
            unit.control = count == 1 ? CONTROL_FIXED : (Control)control;
            unit.sense = (Sense)sense;
            unit.overflow = overflow;
            settle(&unit);
            meet(&unit, 0);
        }
}

static void test_the_main_flags_at_every_small_width(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 6; n++)
        for (unsigned flags = 0; flags < MAIN_FLAGS; flags++) {
            meet_with_flags(n, 2, add_sub, flags, OVERFLOW_WRAP);
            meet_with_flags(n, 1, only_add, flags, OVERFLOW_WRAP);
            meet_with_flags(n, 1, only_sub, flags, OVERFLOW_WRAP);
        }
}

static void test_every_set_of_flags_and_overflow_rule(void **state) {
    (void)state;
    const unsigned widths[] = {1, 2, 4};
    for (int k = 0; k < 3; k++)
        for (unsigned flags = 0; flags < 1u << FLAG_COUNT; flags++)
            for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++) {
                if (widths[k] < 4 && (flags >> FLAG_HALF_CARRY & 1) != 0)
                    continue;
                meet_with_flags(widths[k], 2, add_sub, flags, (Overflow)overflow);
            }
}

/* Every pair of the five, and counting up and down; every flag alone, all, none. */
static void test_the_other_pairs(void **state) {
    (void)state;
    const Operation five[] = {OP_ADD, OP_ADC, OP_SUB, OP_SBC, OP_RSB};
    const Operation up_down[] = {OP_INC, OP_DEC}, down_up[] = {OP_DEC, OP_INC};
    for (unsigned n = 1; n <= 4; n++)
        for (unsigned some = 0; some <= FLAG_COUNT + 1; some++)
            for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++) {
                unsigned flags = some < FLAG_COUNT ? 1u << some : some == FLAG_COUNT ? 0 : 255;
                for (int k = 0; k < 25; k++)
                    if (k / 5 != k % 5)
                        meet_with_flags(n, 2, (const Operation[]){five[k / 5], five[k % 5]}, flags,
                                        (Overflow)overflow);
                meet_with_flags(n, 2, up_down, flags, (Overflow)overflow);
                meet_with_flags(n, 2, down_up, flags, (Overflow)overflow);
            }
}

static void test_every_operation_alone(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 5; n++)
        for (int operation = 0; operation < OP_COUNT; operation++)
            for (unsigned flags = 0; flags < MAIN_FLAGS; flags++)
                for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++)
                    meet_with_flags(n, 1, &(const Operation){(Operation)operation}, flags,
                                    (Overflow)overflow);
}

static void test_wide_words(void **state) {
    (void)state;
    const unsigned widths[] = {31, 32, 33, 64, 128, 1024};
    for (size_t k = 0; k < sizeof widths / sizeof widths[0]; k++) {
        meet_with_flags(widths[k], 2, add_sub, 255, OVERFLOW_WRAP);
        meet_with_flags(widths[k], 2, (const Operation[]){OP_ADC, OP_SBC}, 255,
                        OVERFLOW_SATURATE_SIGNED);
    }
}

/* ---- refusals ----------------------------------------------------------------------------- */

static void test_operations_without_a_circuit_are_refused(void **state) {
    (void)state;
    static Unit unit;
    const Operation others[][3] = {{OP_ADD, OP_INC}, {OP_NEG, OP_PASS}, {OP_ADD, OP_SUB, OP_RSB}};
    for (int k = 0; k < 3; k++) {
        Problem problem = {STATUS_DONE, ""};
        make(&unit, 8, k == 2 ? 3 : 2, others[k]);
        assert_false(unit_settle(&unit, &problem));
        assert_int_equal(problem.status, STATUS_INVALID);
        assert_non_null(strstr(problem.text, "has no circuit for"));
        assert_non_null(strstr(problem.text, "`structure` ripple"));
    }
}

static void test_requests_are_refused(void **state) {
    (void)state;
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    make(&unit, 8, 2, add_sub);
    unit.control = CONTROL_ONE_HOT;
    assert_false(unit_settle(&unit, &problem));
    assert_non_null(strstr(problem.text, "`control` high or low"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_operation_has_the_proven_minimum),
        cmocka_unit_test(test_the_adder_subtractor_has_the_counts_of_the_table),
        cmocka_unit_test(test_levels_grow_by_two_a_column),
        cmocka_unit_test(test_the_widest),
        cmocka_unit_test(test_the_main_flags_at_every_small_width),
        cmocka_unit_test(test_every_set_of_flags_and_overflow_rule),
        cmocka_unit_test(test_the_other_pairs),
        cmocka_unit_test(test_every_operation_alone),
        cmocka_unit_test(test_wide_words),
        cmocka_unit_test(test_operations_without_a_circuit_are_refused),
        cmocka_unit_test(test_requests_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
