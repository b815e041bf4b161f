/* Counts and levels of the ripple circuit against counts that others published or that can be
 * done by hand, and counting itself on gates made for the purpose. */
#include "gates/build.h"
#include "gates/netlist/cost.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* A unit of one or two operations, ripple, with the flags named (FLAG_COUNT ends the list). */
static Cost cost_of(unsigned width, int count, const Operation *operations, const Flag *flags) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    unit_init(&unit);
    unit.width = width;
    unit.detail = DETAIL_GATES;
    unit.choice_count = count;
    for (int k = 0; k < count; k++)
        unit.choice[k].operation = operations[k];
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit.flag[flag] = false;
    for (; *flags != FLAG_COUNT; flags++)
        unit.flag[*flags] = true;
    if (!unit_settle(&unit, &problem))
        fail_msg("%s", problem.text);
    Netlist netlist;
    build_netlist(&unit, &netlist);
    Cost cost = cost_count(&netlist);
    netlist_free(&netlist);
    return cost;
}

static Cost adder(unsigned width) {
    return cost_of(width, 1, (const Operation[]){OP_ADD}, (const Flag[]){FLAG_CARRY, FLAG_COUNT});
}

static Cost adder_subtractor(unsigned width) {
    return cost_of(width, 2, (const Operation[]){OP_ADD, OP_SUB},
                   (const Flag[]){FLAG_CARRY, FLAG_OVERFLOW, FLAG_COUNT});
}

/* ---- published counts --------------------------------------------------------------------- */

/* N. P. Red'kin, 1981: n + 1 outputs of an n-bit adder take 5n - 3 gates and no fewer, whatever
 * two-input gates they are (restated in Goncharov, Kulikov, Levtsov, "Smaller Circuits for Bit
 * Addition", STACS 2026). */
static void test_the_adder_has_the_proven_minimum(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 64; n++)
        assert_int_equal(adder(n).gates, 5 * n - 3);
}

/* The textbook form: an XOR row, n five-gate full adders, an XOR for overflow: n + 5n + 1.
 * Common practice, no source. */
static void test_the_textbook_adder_subtractor(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 64; n++)
        assert_int_equal(adder_subtractor(n).gates, 6 * n + 1);
}

/* ---- by hand ------------------------------------------------------------------------------ */

/* The half adder of column 0 is XOR and AND; a full adder is two XOR, two AND, one OR. */
static void test_the_adders_kinds_of_gates(void **state) {
    (void)state;
    Cost cost = adder(8);
    assert_int_equal(cost.by_kind[NODE_XOR], 1 + 7 * 2);
    assert_int_equal(cost.by_kind[NODE_AND], 1 + 7 * 2);
    assert_int_equal(cost.by_kind[NODE_OR], 7);
    assert_int_equal(cost.pin_inverters, 0);
    assert_int_equal(cost.by_kind[NODE_CONSTANT] + cost.by_kind[NODE_INPUT], 0);
}

/* The first carry is there after 1 level, each further one an AND and an OR later. */
static void test_levels_of_the_adder_grow_by_two_a_column(void **state) {
    (void)state;
    assert_int_equal(adder(1).levels, 1);
    for (unsigned n = 2; n <= 256; n++)
        assert_int_equal(adder(n).levels, 2 * n - 1);
}

/* Column 0: operand XOR, propagate XOR, AND, OR = 4 levels; 2 a further column; overflow 1. */
static void test_levels_of_the_adder_subtractor(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 256; n++)
        assert_int_equal(adder_subtractor(n).levels, 4 + 2 * (n - 1) + 1);
}

/* A tree of OR over n bits: n - 1 gates, the last one turned over into NOR. Column n - 1 has lost
 * its carry, which nobody reads: three gates fewer. */
static void test_the_zero_flag_is_a_tree(void **state) {
    (void)state;
    for (unsigned n = 2; n <= 64; n++) {
        Cost cost =
            cost_of(n, 1, (const Operation[]){OP_ADD}, (const Flag[]){FLAG_ZERO, FLAG_COUNT});
        assert_int_equal(cost.gates, 5 * n - 3 - 3 + n - 1);
        assert_int_equal(cost.by_kind[NODE_NOR], 1);
        assert_int_equal(cost.pin_inverters, 0);
    }
}

/* Nothing is built for passing a on. */
static void test_pass_takes_no_gate(void **state) {
    (void)state;
    Cost cost = cost_of(32, 1, (const Operation[]){OP_PASS}, (const Flag[]){FLAG_COUNT});
    assert_int_equal(cost.gates, 0);
    assert_int_equal(cost.levels, 0);
    assert_int_equal(cost.pin_inverters, 0);
}

/* a + 1 is a half adder a column: column 0 inverts only, a[0] is the first carry. */
static void test_increment_takes_half_adders(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 64; n++) {
        Cost cost =
            cost_of(n, 1, (const Operation[]){OP_INC}, (const Flag[]){FLAG_CARRY, FLAG_COUNT});
        assert_int_equal(cost.gates, 2 * (n - 1));
        assert_int_equal(cost.inverters, 1);
    }
}

/* ---- growth ------------------------------------------------------------------------------- */

static void test_counts_are_linear_up_to_the_widest(void **state) {
    (void)state;
    for (unsigned n = 64; n <= UNIT_WIDTH_MAX; n *= 2) {
        assert_int_equal(adder(n).gates, 5 * n - 3);
        assert_int_equal(adder(n).levels, 2 * n - 1);
        assert_int_equal(adder_subtractor(n).gates, 6 * n + 1);
        assert_int_equal(adder_subtractor(n).levels, 2 * n + 3);
    }
}

/* ---- counting itself ---------------------------------------------------------------------- */

static void test_an_inverted_output_is_an_inverter_and_no_gate(void **state) {
    (void)state;
    Netlist netlist;
    netlist_init(&netlist);
    Literal x = netlist_input(&netlist, PIN_A, 0), y = netlist_input(&netlist, PIN_B, 0);
    Literal both = netlist_and(&netlist, x, y);
    netlist_output(&netlist, PIN_RESULT, 0, both);
    netlist_output(&netlist, PIN_RESULT, 1, literal_not(both));
    netlist_output(&netlist, PIN_RESULT, 2, literal_not(x));
    netlist_output(&netlist, PIN_RESULT, 3, LITERAL_1); /* a constant needs no inverter */
    netlist_finish(&netlist);
    Cost cost = cost_count(&netlist);
    assert_int_equal(cost.gates, 1);
    assert_int_equal(cost.inverters, 2);
    assert_int_equal(cost.levels, 1);
    netlist_free(&netlist);
}

static void test_levels_follow_the_longest_path_to_an_output(void **state) {
    (void)state;
    Netlist netlist;
    netlist_init(&netlist);
    Literal x = netlist_input(&netlist, PIN_A, 0), y = netlist_input(&netlist, PIN_B, 0);
    Literal first = netlist_and(&netlist, x, y);
    Literal second = netlist_xor(&netlist, y, first);
    Literal third = netlist_or(&netlist, x, second);
    netlist_output(&netlist, PIN_RESULT, 0, third);
    netlist_output(&netlist, PIN_RESULT, 1, first);
    assert_int_equal(cost_count(&netlist).levels, 3);
    netlist.outputs[0].literal = second;
    assert_int_equal(cost_count(&netlist).levels, 2);
    netlist_free(&netlist);
}

/* ---- what else is counted ------------------------------------------------------------------ */

/* x AND y is read by both other gates and by an output pin; y is a pin and does not count. The
 * second gate reads it inverted, and so does the third: one inverter. */
static void test_fan_out_inverters_and_transistors(void **state) {
    (void)state;
    Netlist netlist;
    netlist_init(&netlist);
    Literal x = netlist_input(&netlist, PIN_A, 0), y = netlist_input(&netlist, PIN_B, 0);
    Literal both = netlist_and(&netlist, x, y);
    netlist_output(&netlist, PIN_RESULT, 0, both);
    netlist_output(&netlist, PIN_RESULT, 1, netlist_and(&netlist, y, literal_not(both)));
    netlist_output(&netlist, PIN_RESULT, 2, netlist_or(&netlist, y, literal_not(both)));
    netlist_output(&netlist, PIN_RESULT, 3, netlist_xor(&netlist, x, y));
    netlist_finish(&netlist);
    Cost cost = cost_count(&netlist);
    assert_int_equal(cost.gates, 4);
    assert_int_equal(cost.fan_out, 3);
    assert_int_equal(cost.inverters, 1);
    assert_int_equal(cost.transistors, 2 * 6 + 6 + 10 + 2);
    netlist_free(&netlist);
}

/* The sum and the AND of a full adder read the carry into it and its propagate, both twice; nothing
 * else is read twice. */
static void test_the_ripple_adders_fan_out_is_constant(void **state) {
    (void)state;
    assert_int_equal(adder(1).fan_out, 1);
    for (unsigned n = 2; n <= 64; n++)
        assert_int_equal(adder(n).fan_out, 2);
}

/* A half adder and n - 1 full adders: 16, and 2 XOR, 2 AND and an OR each. */
static void test_the_ripple_adders_transistors(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 64; n++)
        assert_int_equal(adder(n).transistors, 16 + (n - 1) * (2 * 10 + 2 * 6 + 6));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_adder_has_the_proven_minimum),
        cmocka_unit_test(test_the_textbook_adder_subtractor),
        cmocka_unit_test(test_the_adders_kinds_of_gates),
        cmocka_unit_test(test_levels_of_the_adder_grow_by_two_a_column),
        cmocka_unit_test(test_levels_of_the_adder_subtractor),
        cmocka_unit_test(test_the_zero_flag_is_a_tree),
        cmocka_unit_test(test_pass_takes_no_gate),
        cmocka_unit_test(test_increment_takes_half_adders),
        cmocka_unit_test(test_counts_are_linear_up_to_the_widest),
        cmocka_unit_test(test_an_inverted_output_is_an_inverter_and_no_gate),
        cmocka_unit_test(test_levels_follow_the_longest_path_to_an_output),
        cmocka_unit_test(test_fan_out_inverters_and_transistors),
        cmocka_unit_test(test_the_ripple_adders_fan_out_is_constant),
        cmocka_unit_test(test_the_ripple_adders_transistors),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
