/* The bounds: their formulas, what they hold for, and that the pins said to decide the sign bit do,
 * by trying every input of the model. */
#include "gates/bound.h"

#include "model/model.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* A unit of these operations (OP_COUNT ends the list), with a carry pin or without. */
static const Unit *make(unsigned width, Control control, bool carry, const Operation *operations) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    unit_init(&unit);
    unit.width = width;
    unit.control = control;
    unit.choice_count = 0;
    for (; *operations != OP_COUNT; operations++)
        unit.choice[unit.choice_count++].operation = *operations;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit.flag[flag] = flag == FLAG_CARRY && carry;
    if (!unit_settle(&unit, &problem))
        fail_msg("%s", problem.text);
    return &unit;
}

static const Operation add[] = {OP_ADD, OP_COUNT}, sub[] = {OP_SUB, OP_COUNT},
                       inc[] = {OP_INC, OP_COUNT}, pass[] = {OP_PASS, OP_COUNT},
                       add_sub[] = {OP_ADD, OP_SUB, OP_COUNT};

/* N. P. Red'kin, 1981 (see bound.c). */
static void test_whoever_adds_and_shows_the_carry_has_an_adder(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 64; n++) {
        assert_int_equal(bound_of(make(n, CONTROL_UNSET, true, add)).gates, 5 * n - 3);
        assert_int_equal(bound_of(make(n, CONTROL_UNSET, true, sub)).gates, 5 * n - 3);
        assert_int_equal(bound_of(make(n, CONTROL_UNSET, false, add)).gates, 0);
        assert_int_equal(bound_of(make(n, CONTROL_UNSET, true, inc)).gates, 0);
        if (n != 2)
            assert_int_equal(bound_of(make(n, CONTROL_UNSET, true, add_sub)).gates, 5 * n - 3);
    }
}

/* Proved minimal by SAT search at two bits: result 5, result and overflow 8, with the carry in
 * either sense 9 (tests/outside repeats the search). */
static void test_two_bits_were_searched(void **state) {
    (void)state;
    Unit unit = *make(2, CONTROL_HIGH, false, add_sub);
    assert_int_equal(bound_of(&unit).gates, 5);
    unit.flag[FLAG_OVERFLOW] = true;
    assert_int_equal(bound_of(&unit).gates, 8);
    unit.flag[FLAG_CARRY] = true;
    assert_int_equal(bound_of(&unit).gates, 9);
    unit.flag[FLAG_OVERFLOW] = false;
    assert_int_equal(bound_of(&unit).gates, 9);
    unit.width = 3;
    assert_int_equal(bound_of(&unit).gates, 12);
}

static void test_levels_join_two_inputs_a_gate(void **state) {
    (void)state;
    const struct {
        unsigned width;
        const Operation *operations;
        uint32_t inputs, levels;
    } cases[] = {
        {1, add, 2, 1}, {2, add, 4, 2},        {8, add, 16, 4},       {8, add_sub, 17, 5},
        {9, inc, 9, 4}, {8, inc, 8, 3},        {64, add_sub, 129, 8}, {64, add, 128, 7},
        {1, inc, 1, 0}, {4096, add, 8192, 13},
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        Bound bound = bound_of(make(cases[k].width, CONTROL_UNSET, true, cases[k].operations));
        assert_int_equal(bound.inputs, cases[k].inputs);
        assert_int_equal(bound.levels, cases[k].levels);
    }
    assert_int_equal(bound_of(make(8, CONTROL_UNSET, true, pass)).levels, 0);
}

/* Snir 1986: size + depth >= 2n - 2. At depth n - 1 that is the chain of n - 1 cells. */
static void test_prefix_cells(void **state) {
    (void)state;
    assert_int_equal(bound_prefix_cells(1, 0), 0);
    assert_int_equal(bound_prefix_cells(8, 7), 7);
    assert_int_equal(bound_prefix_cells(8, 3), 11);
    assert_int_equal(bound_prefix_cells(64, 6), 120);
    assert_int_equal(bound_prefix_cells(64, 63), 63);
    assert_int_equal(bound_prefix_cells(64, 100), 63);
}

/* ---- which pins decide the sign bit ------------------------------------------------------- */

/* The sign bit for a number made of all pins: a, then b, cin and the control pins. */
static bool sign(const Unit *unit, uint32_t pins) {
    unsigned n = unit->width;
    uint32_t word = (UINT32_C(1) << n) - 1;
    static Word a, b; /* large */
    static Outcome outcome;
    word_set(&a, n, pins & word);
    word_set(&b, n, pins >> n & word);
    bool cin = (pins >> (2 * n) & 1) != 0;
    model_outcome(unit, unit_control_choice(unit, pins >> (2 * n + 1)), &a, &b, cin, &outcome);
    return word_bit(&outcome.result, n - 1);
}

/* How many pins change the sign bit by themselves for some level of the others. */
static uint32_t count_deciding(const Unit *unit) {
    unsigned pins = 2 * unit->width + 1 + unit_control_bits(unit);
    uint32_t deciding = 0;
    for (unsigned pin = 0; pin < pins; pin++) {
        bool decides = false;
        for (uint32_t levels = 0; levels < UINT32_C(1) << pins && !decides; levels++)
            decides = sign(unit, levels) != sign(unit, levels ^ (UINT32_C(1) << pin));
        deciding += decides;
    }
    return deciding;
}

/* Every pair of operations by every control that takes two, and every one alone. */
static void test_the_pins_said_to_decide_do(void **state) {
    (void)state;
    static const Control controls[] = {CONTROL_HIGH, CONTROL_ONE_HOT, CONTROL_CODE};
    for (int first = 0; first < OP_COUNT; first++)
        for (int second = 0; second < OP_COUNT; second++)
            for (int k = 0; k < 3; k++) {
                Operation pair[] = {(Operation)first,
                                    second == first ? OP_COUNT : (Operation)second, OP_COUNT};
                Control control = second == first ? CONTROL_FIXED : controls[k];
                if (second == first && first == OP_PASS)
                    continue;
                const Unit *unit = make(3, control, true, pair);
                assert_int_equal(bound_of(unit).inputs, count_deciding(unit));
            }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_whoever_adds_and_shows_the_carry_has_an_adder),
        cmocka_unit_test(test_two_bits_were_searched),
        cmocka_unit_test(test_levels_join_two_inputs_a_gate),
        cmocka_unit_test(test_prefix_cells),
        cmocka_unit_test(test_the_pins_said_to_decide_do),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
