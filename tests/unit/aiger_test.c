/* AIGER: the examples of its own document (A. Biere, "The AIGER And-Inverter Graph (AIG) Format
 * Version 20071012"), and bytes that are none. */
#include "proof/aiger.h"
#include "proof/equal.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

/* The half adder, "aig 5 2 0 2 3": its sum is 10, its carry 6. */
static const char half_adder[] =
    "aig 5 2 0 2 3\n10\n6\n\x02\x02\x03\x02\x01\x02i0 x\ni1 y\no0 s\no1 c\nc\nhalf adder\n";

static void test_the_half_adder_is_read(void **state) {
    (void)state;
    Aiger aiger;
    assert_null(aiger_read(&aiger, half_adder, sizeof half_adder - 1));
    assert_int_equal(aiger.inputs, 2);
    assert_int_equal(aiger.latches, 0);
    assert_int_equal(aiger.ands, 3);
    assert_int_equal(aiger.output[0], 10);
    assert_int_equal(aiger.output[1], 6);
    const uint32_t in[3][2] = {{4, 2}, {5, 3}, {9, 7}};
    for (int k = 0; k < 3; k++)
        assert_memory_equal(aiger.in[k], in[k], sizeof in[k]);
    assert_string_equal(aiger.input_name[1], "y");
    assert_string_equal(aiger.output_name[0], "s");
    aiger_free(&aiger);
}

/* The toggle flip-flop with reset and enable, "aig 7 2 1 2 4". */
static void test_a_latch_is_read(void **state) {
    (void)state;
    static const char toggle[] = "aig 7 2 1 2 4\n14\n6\n7\n\x02\x04\x03\x04\x01\x02\x02\x08";
    Aiger aiger;
    assert_null(aiger_read(&aiger, toggle, sizeof toggle - 1));
    assert_int_equal(aiger.next[0], 14);
    assert_int_equal(aiger.in[2][0], 11);
    assert_int_equal(aiger.in[2][1], 9);
    assert_int_equal(aiger.in[3][0], 12);
    assert_int_equal(aiger.in[3][1], 4);
    assert_null(aiger.input_name[0]);
    aiger_free(&aiger);
}

static void test_every_beginning_is_refused(void **state) {
    (void)state;
    Aiger aiger;
    for (size_t length = 0; length < 25; length++) { /* up to the last gate */
        assert_non_null(aiger_read(&aiger, half_adder, length));
        aiger_free(&aiger);
    }
}

static void test_what_is_no_circuit_is_refused(void **state) {
    (void)state;
    static const char *const wrong[] = {
        "",
        "aag 1 1 0 1 0\n2\n2\n",
        "aig 5 2 0 2 4\n10\n6\n\x02\x02\x03\x02\x01\x02",
        "aig 16777217 16777217 0 0 0\n",
        "aig 4294967297 1 0 0 0\n",
        "aig 16000000 16000000 0 0 0\n",
        "aig 1000 0 0 0 1000\n",
        "aig 1 0 1000 0 1\n",
        "aig 1 1 0 1 0\n4\n",
        "aig 1 1 0 1 0\n-2\n",
        "aig 2 1 0 1 1\n4\n\x05\x01",
        "aig 2 1 0 1 1\n4\n\x01\x04",
        "aig 2 1 0 1 1\n4\n\xff\xff\xff\xff\xff\x01",
        "aig 1 1 0 1 0 1\n2\n2\n", /* a property */
        "aig 1 1 0 1 0\n2\ni1 name\n",
        "aig 1 1 0 1 0\n2\nx0 name\n",
        "aig 1 1 0 1 0\n2\ni0 name",
    };
    for (size_t k = 0; k < sizeof wrong / sizeof wrong[0]; k++) {
        Aiger aiger;
        if (aiger_read(&aiger, wrong[k], strlen(wrong[k])) == NULL)
            fail_msg("circuit %zu is read", k);
        aiger_free(&aiger);
    }
}

/* ---- against a unit ------------------------------------------------------------------------- */

static void adder1(Unit *unit, Registers registers) {
    unit_init(unit);
    unit->width = 1;
    unit->choice[0].operation = OP_ADD;
    unit->choice_count = 1;
    unit->registers = registers;
    unit->reset = registers == REGISTERS_NONE ? RESET_UNSET : RESET_NONE;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] = flag == FLAG_CARRY;
    Problem problem = {STATUS_DONE, ""};
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
}

static void compare(const Unit *unit, const char *bytes, size_t count, Equality *equality) {
    Aiger aiger;
    assert_null(aiger_read(&aiger, bytes, count));
    equal_find(unit, &aiger, unit_latency(unit), false, equality);
    aiger_free(&aiger);
}

static void test_the_half_adder_adds_one_bit(void **state) {
    (void)state;
    static Unit unit;
    Equality equality;
    adder1(&unit, REGISTERS_NONE);
    static const char right[] =
        "aig 5 2 0 2 3\n10\n6\n\x02\x02\x03\x02\x01\x02i0 pin_a\ni1 pin_b[0]\n"
        "o0 pin_result[0]\no1 pin_carry\n";
    compare(&unit, right, sizeof right - 1, &equality);
    assert_int_equal(equality.state, PROOF_EQUAL);
    assert_string_equal(equality.text, "equal to the unit for all 4 inputs");
    /* the carry is the OR of both: wrong where they differ */
    static const char wrong[] =
        "aig 5 2 0 2 3\n10\n9\n\x02\x02\x03\x02\x01\x02i0 pin_a\ni1 pin_b[0]\n"
        "o0 pin_result[0]\no1 pin_carry\n";
    compare(&unit, wrong, sizeof wrong - 1, &equality);
    assert_int_equal(equality.state, PROOF_DIFFERENT);
    assert_true(equality.shown);
    assert_string_equal(equality.share, "1 of every 2 inputs");
    assert_true(equality.example.a[0] != equality.example.b[0]);
    /* an input of no pin decides */
    static const char open[] = "aig 5 2 0 2 3\n10\n6\n\x02\x02\x03\x02\x01\x02i0 pin_a\ni1 other\n"
                               "o0 pin_result[0]\no1 pin_carry\n";
    compare(&unit, open, sizeof open - 1, &equality);
    assert_int_equal(equality.state, PROOF_DIFFERENT);
}

/* Without registers it is not the unit with registers. */
static void test_a_clock_is_followed(void **state) {
    (void)state;
    static Unit unit;
    Equality equality;
    adder1(&unit, REGISTERS_OUTPUT);
    static const char at_once[] =
        "aig 6 3 0 2 3\n12\n8\n\x02\x02\x03\x02\x01\x02i0 pin_a\ni1 pin_b[0]\ni2 pin_clk\n"
        "o0 pin_result[0]\no1 pin_carry\n";
    compare(&unit, at_once, sizeof at_once - 1, &equality);
    assert_int_equal(equality.state, PROOF_DIFFERENT);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_half_adder_is_read),
        cmocka_unit_test(test_a_latch_is_read),
        cmocka_unit_test(test_every_beginning_is_refused),
        cmocka_unit_test(test_what_is_no_circuit_is_refused),
        cmocka_unit_test(test_the_half_adder_adds_one_bit),
        cmocka_unit_test(test_a_clock_is_followed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
