/* The word of a vector: which fields, in which order, how many digits, where each begins. */
#include "verilog/layout.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

typedef struct {
    unsigned width;
    Control control;
    const Operation *operations; /* OP_COUNT ends the list */
    const Flag *flags;           /* FLAG_COUNT ends the list */
} Asked;

static Layout layout(Asked asked) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    unit_init(&unit);
    unit.width = asked.width;
    unit.control = asked.control;
    unit.choice_count = 0;
    for (; *asked.operations != OP_COUNT; asked.operations++)
        unit.choice[unit.choice_count++].operation = *asked.operations;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit.flag[flag] = false;
    for (; *asked.flags != FLAG_COUNT; asked.flags++)
        unit.flag[*asked.flags] = true;
    if (!unit_settle(&unit, &problem))
        fail_msg("%s", problem.text);
    return layout_of(&unit);
}

static void assert_field(const Layout *got, Field field, unsigned bits, unsigned digits,
                         unsigned low) {
    assert_int_equal(got->field[field].bits, bits);
    assert_int_equal(got->field[field].digits, digits);
    assert_int_equal(got->field[field].low, low);
}

static const Operation add_sub[] = {OP_ADD, OP_SUB, OP_COUNT};
static const Operation carried[] = {OP_ADD, OP_SUB, OP_ADC, OP_SBC, OP_NEG, OP_COUNT};
static const Flag usual[] = {FLAG_CARRY, FLAG_OVERFLOW, FLAG_ZERO, FLAG_NEGATIVE, FLAG_COUNT};
static const Flag no_flags[] = {FLAG_COUNT};

/* subtract_aa_bb_rr_f */
static void test_add_and_subtract_on_bytes(void **state) {
    (void)state;
    Layout got = layout((Asked){8, CONTROL_HIGH, add_sub, usual});
    assert_field(&got, FIELD_FLAGS, 4, 1, 0);
    assert_field(&got, FIELD_RESULT, 8, 2, 4);
    assert_field(&got, FIELD_B, 8, 2, 12);
    assert_field(&got, FIELD_A, 8, 2, 20);
    assert_field(&got, FIELD_CIN, 0, 0, 28);
    assert_field(&got, FIELD_CONTROL, 1, 1, 28);
    assert_int_equal(got.bits, 32);
    assert_int_equal(got.out_bits, 12);
}

/* op_cin_aaa_bbb_rrr_ff, the op field of 3 bits, words of 9 bits, 5 flags */
static void test_fields_fill_whole_digits(void **state) {
    (void)state;
    const Flag five[] = {FLAG_CARRY,  FLAG_OVERFLOW,   FLAG_ZERO,
                         FLAG_PARITY, FLAG_HALF_CARRY, FLAG_COUNT};
    Layout got = layout((Asked){9, CONTROL_CODE, carried, five});
    assert_field(&got, FIELD_FLAGS, 5, 2, 0);
    assert_field(&got, FIELD_RESULT, 9, 3, 8);
    assert_field(&got, FIELD_B, 9, 3, 20);
    assert_field(&got, FIELD_A, 9, 3, 32);
    assert_field(&got, FIELD_CIN, 1, 1, 44);
    assert_field(&got, FIELD_CONTROL, 3, 1, 48);
    assert_int_equal(got.bits, 52);
    assert_int_equal(got.out_bits, 20);
}

static void test_one_hot_has_a_bit_an_operation(void **state) {
    (void)state;
    Layout got = layout((Asked){8, CONTROL_ONE_HOT, carried, usual});
    assert_field(&got, FIELD_CONTROL, 5, 2, 32);
    assert_int_equal(got.bits, 40);
}

/* A unit without control, cin, b or flags: a_result. */
static void test_what_a_unit_lacks_takes_no_room(void **state) {
    (void)state;
    const Operation increment[] = {OP_INC, OP_COUNT};
    Layout got = layout((Asked){5, CONTROL_FIXED, increment, no_flags});
    assert_field(&got, FIELD_FLAGS, 0, 0, 0);
    assert_field(&got, FIELD_RESULT, 5, 2, 0);
    assert_field(&got, FIELD_B, 0, 0, 8);
    assert_field(&got, FIELD_A, 5, 2, 8);
    assert_field(&got, FIELD_CIN, 0, 0, 16);
    assert_field(&got, FIELD_CONTROL, 0, 0, 16);
    assert_int_equal(got.bits, 16);
    assert_int_equal(got.out_bits, 8);
}

/* The digits follow the width: fields stand side by side, in order, up to the widest. */
static void test_fields_stand_side_by_side(void **state) {
    (void)state;
    const unsigned widths[] = {1, 2, 3, 4, 5, 31, 32, 33, 4095, 4096};
    for (size_t k = 0; k < sizeof widths / sizeof widths[0]; k++) {
        Layout got = layout((Asked){widths[k], CONTROL_CODE, carried, usual});
        unsigned low = got.bits;
        for (int field = 0; field < FIELD_COUNT; field++) {
            low -= got.field[field].digits * 4;
            assert_int_equal(got.field[field].low, low);
            assert_true(got.field[field].digits * 4 >= got.field[field].bits);
            assert_true(got.field[field].digits * 4 < got.field[field].bits + 4);
        }
        assert_int_equal(low, 0);
        assert_int_equal(got.field[FIELD_A].bits, widths[k]);
        assert_int_equal(got.out_bits, got.field[FIELD_B].low);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_add_and_subtract_on_bytes),
        cmocka_unit_test(test_fields_fill_whole_digits),
        cmocka_unit_test(test_one_hot_has_a_bit_an_operation),
        cmocka_unit_test(test_what_a_unit_lacks_takes_no_room),
        cmocka_unit_test(test_fields_stand_side_by_side),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
