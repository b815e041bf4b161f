/* Words of n bits: small cases, with the edges of 64-bit limbs among them. */
#include "model/word.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* Widths at, below and above the edges of limbs, to the widest exact result. */
static const unsigned widths[] = {1, 2, 7, 8, 63, 64, 65, 127, 128, 129, 4096, WORD_BITS_MAX};
enum { WIDTHS = sizeof widths / sizeof widths[0] };

static Word word(unsigned width, uint64_t value) {
    Word made = {0};
    word_set(&made, width, value);
    return made;
}

static Word ones(unsigned width) {
    Word made = {0};
    word_ones(&made, width);
    return made;
}

static void assert_hex(const Word *got, const char *expected) {
    char text[WORD_BITS_MAX / 4 + 2];
    assert_int_equal(word_hex(got, text), strlen(expected));
    assert_string_equal(text, expected);
}

static void test_a_value_is_cut_to_the_width(void **state) {
    (void)state;
    Word w = word(5, 0x1ff);
    assert_hex(&w, "1f");
    w = word(64, UINT64_MAX);
    assert_hex(&w, "ffffffffffffffff");
    w = word(68, UINT64_MAX);
    assert_hex(&w, "0ffffffffffffffff");
}

static void test_all_ones_stop_at_the_width(void **state) {
    (void)state;
    for (int i = 0; i < WIDTHS; i++) {
        Word w = ones(widths[i]);
        unsigned end = (widths[i] + 63) / 64 * 64;
        for (unsigned bit = 0; bit < end; bit++)
            assert_int_equal(w.limb[bit / 64] >> (bit % 64) & 1, bit < widths[i]);
        word_zero(&w, widths[i]);
        assert_true(word_is_zero(&w));
    }
}

static void test_one_bit_is_put_and_read(void **state) {
    (void)state;
    Word w = word(130, 0);
    word_put(&w, 63, true);
    word_put(&w, 64, true);
    word_put(&w, 129, true);
    assert_hex(&w, "200000000000000018000000000000000");
    assert_true(word_bit(&w, 64));
    assert_false(word_bit(&w, 65));
    word_put(&w, 64, false);
    word_put(&w, 129, true);
    assert_hex(&w, "200000000000000008000000000000000");
}

static void test_resizing_extends_or_cuts(void **state) {
    (void)state;
    Word minus_two = word(4, 0xe), w;
    word_resize_signed(&w, &minus_two, 6);
    assert_hex(&w, "3e");
    word_resize_unsigned(&w, &minus_two, 6);
    assert_hex(&w, "0e");
    word_resize_signed(&w, &minus_two, 132);
    assert_hex(&w, "ffffffffffffffffffffffffffffffffe");
    word_resize_unsigned(&w, &w, 7); /* in place, cut */
    assert_hex(&w, "7e");
    word_resize_signed(&w, &w, 68); /* in place, sign bit 1 */
    assert_hex(&w, "ffffffffffffffffe");
    word_resize_signed(&w, &w, 2);
    assert_hex(&w, "2");
    Word positive = word(64, INT64_MAX);
    word_resize_signed(&w, &positive, 68);
    assert_hex(&w, "07fffffffffffffff");
    Word full = ones(64); /* the sign bit is a limb's last */
    word_resize_signed(&w, &full, 68);
    assert_hex(&w, "fffffffffffffffff");
    word_resize_unsigned(&w, &full, 68);
    assert_hex(&w, "0ffffffffffffffff");
}

static void test_addition(void **state) {
    (void)state;
    Word x = word(8, 200), y = word(8, 55), sum;
    assert_false(word_add(&sum, &x, &y, false));
    assert_hex(&sum, "ff");
    assert_true(word_add(&sum, &x, &y, true));
    assert_hex(&sum, "00");
}

/* All ones plus all ones plus one is all ones with a carry, the longest chain with every carry. */
static void test_addition_carries_through_every_limb(void **state) {
    (void)state;
    for (int i = 0; i < WIDTHS; i++) {
        Word all = ones(widths[i]), zero = word(widths[i], 0), sum;
        assert_true(word_add(&sum, &all, &all, true));
        assert_true(word_equal(&sum, &all));
        assert_true(word_add(&sum, &all, &zero, true));
        assert_true(word_is_zero(&sum));
        assert_false(word_add(&sum, &all, &zero, false));
        assert_true(word_equal(&sum, &all));
    }
}

static void test_subtraction(void **state) {
    (void)state;
    Word x = word(8, 20), y = word(8, 19), difference;
    assert_false(word_subtract(&difference, &x, &y, true));
    assert_hex(&difference, "00");
    assert_true(word_subtract(&difference, &y, &x, false));
    assert_hex(&difference, "ff");
    assert_true(word_subtract(&difference, &y, &x, true));
    assert_hex(&difference, "fe");
}

static void test_subtraction_borrows_through_every_limb(void **state) {
    (void)state;
    for (int i = 0; i < WIDTHS; i++) {
        Word all = ones(widths[i]), zero = word(widths[i], 0), difference;
        assert_true(word_subtract(&difference, &zero, &zero, true));
        assert_true(word_equal(&difference, &all));
        assert_true(word_subtract(&difference, &zero, &all, true));
        assert_true(word_is_zero(&difference));
        assert_true(word_subtract(&difference, &all, &all, true));
        assert_true(word_equal(&difference, &all));
        assert_false(word_subtract(&difference, &all, &all, false));
        assert_true(word_is_zero(&difference));
    }
}

static void test_the_result_may_be_an_operand(void **state) {
    (void)state;
    Word x = word(100, 7), y = word(100, 5);
    word_add(&x, &x, &y, false);
    assert_hex(&x, "000000000000000000000000c");
    word_add(&y, &x, &y, false);
    assert_hex(&y, "0000000000000000000000011");
    word_subtract(&x, &y, &x, false);
    assert_hex(&x, "0000000000000000000000005");
    word_subtract(&x, &x, &x, true);
    assert_hex(&x, "fffffffffffffffffffffffff");
    word_not(&x, &x);
    assert_true(word_is_zero(&x));
}

static void test_logic_bit_by_bit(void **state) {
    (void)state;
    Word x = word(6, 0x2c), y = word(6, 0x1a), w;
    word_xor(&w, &x, &y);
    assert_hex(&w, "36");
    word_and(&w, &x, &y);
    assert_hex(&w, "08");
    word_not(&w, &x);
    assert_hex(&w, "13"); /* bits 6 and 7 stay zero */
    Word wide = word(129, 1);
    word_not(&w, &wide);
    assert_hex(&w, "1fffffffffffffffffffffffffffffffe");
}

static void test_equality_looks_at_every_bit(void **state) {
    (void)state;
    for (int i = 0; i < WIDTHS; i++) {
        Word x = ones(widths[i]), y = ones(widths[i]);
        assert_true(word_equal(&x, &y));
        word_put(&y, widths[i] - 1, false);
        assert_false(word_equal(&x, &y));
        word_zero(&x, widths[i]);
        word_put(&x, widths[i] - 1, true);
        assert_false(word_is_zero(&x));
    }
}

/* What lies in the limbs past the width is not looked at. */
static void test_limbs_past_the_width_do_not_count(void **state) {
    (void)state;
    Word x, y;
    memset(&x, 0x55, sizeof x);
    memset(&y, 0xaa, sizeof y);
    word_set(&x, 64, 0);
    word_set(&y, 64, 0);
    assert_true(word_equal(&x, &y));
    assert_true(word_is_zero(&x));
    assert_false(word_parity(&x));
}

static void test_parity_is_the_xor_of_all_bits(void **state) {
    (void)state;
    for (int i = 0; i < WIDTHS; i++) {
        Word w = ones(widths[i]);
        assert_int_equal(word_parity(&w), widths[i] % 2);
        word_zero(&w, widths[i]);
        for (unsigned bit = 0; bit < widths[i]; bit++) {
            word_put(&w, bit, true);
            assert_int_equal(word_parity(&w), (bit + 1) % 2);
        }
    }
}

static void test_hexadecimal_has_leading_zeros(void **state) {
    (void)state;
    assert_int_equal(word_hex_digits(1), 1);
    assert_int_equal(word_hex_digits(4), 1);
    assert_int_equal(word_hex_digits(5), 2);
    assert_int_equal(word_hex_digits(4096), 1024);
    Word w = word(13, 0xabc);
    assert_hex(&w, "0abc");
    w = word(72, 0x0123456789abcdef);
    assert_hex(&w, "000123456789abcdef");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_value_is_cut_to_the_width),
        cmocka_unit_test(test_all_ones_stop_at_the_width),
        cmocka_unit_test(test_one_bit_is_put_and_read),
        cmocka_unit_test(test_resizing_extends_or_cuts),
        cmocka_unit_test(test_addition),
        cmocka_unit_test(test_addition_carries_through_every_limb),
        cmocka_unit_test(test_subtraction),
        cmocka_unit_test(test_subtraction_borrows_through_every_limb),
        cmocka_unit_test(test_the_result_may_be_an_operand),
        cmocka_unit_test(test_logic_bit_by_bit),
        cmocka_unit_test(test_equality_looks_at_every_bit),
        cmocka_unit_test(test_limbs_past_the_width_do_not_count),
        cmocka_unit_test(test_parity_is_the_xor_of_all_bits),
        cmocka_unit_test(test_hexadecimal_has_leading_zeros),
    };
    return cmocka_run_group_tests_name("word", tests, NULL, NULL);
}
