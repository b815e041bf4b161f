/* Words read from text and written as text, in both readings. GMP checks the same at every width in
 * tests/outside/. */
#include "model/number.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void reads(unsigned width, const char *text, uint64_t expected) {
    Problem problem = {STATUS_DONE, ""};
    Word word;
    if (!number_read(text, width, "operand a", &word, &problem))
        fail_msg("%s at width %u: %s", text, width, problem.text);
    assert_int_equal(word.width, width);
    if (word.limb[0] != expected)
        fail_msg("%s at width %u reads %#llx", text, width, (unsigned long long)word.limb[0]);
}

static void refused(unsigned width, const char *text, const char *words) {
    Problem problem = {STATUS_DONE, ""};
    Word word;
    if (number_read(text, width, "operand a", &word, &problem))
        fail_msg("taken: %s at width %u", text, width);
    assert_int_equal(problem.status, STATUS_INVALID);
    assert_ptr_equal(strstr(problem.text, "operand a '"), problem.text);
    if (strstr(problem.text, words) == NULL)
        fail_msg("nothing about '%s' in: %s", words, problem.text);
    for (const char *c = problem.text; *c != '\0'; c++)
        assert_in_range(*c, ' ', '~');
}

static void test_every_form(void **state) {
    (void)state;
    reads(8, "5", 5);
    reads(8, "-5", 0xfb);
    reads(8, "251", 0xfb);
    reads(8, "0xfb", 0xfb);
    reads(8, "0XFB", 0xfb);
    reads(8, "0b11111011", 0xfb);
    reads(8, "0B1", 1);
    reads(8, "0", 0);
    reads(8, "-0", 0);
    reads(8, "000000000000000000000000000000000000007", 7);
    reads(8, "-00128", 0x80);
    reads(8, "0x0000000000000000000000000000fb", 0xfb);
    reads(8, "010", 10); /* decimal, not octal */
    reads(64, "18446744073709551615", UINT64_MAX);
    reads(64, "-9223372036854775808", UINT64_C(1) << 63);
}

/* The first and the last value of each reading, and the ones beyond them. */
static void test_both_ranges(void **state) {
    (void)state;
    reads(1, "1", 1);
    reads(1, "-1", 1);
    refused(1, "2", "0 to 1, in two's complement -1 to 0");
    refused(1, "-2", "1 bit;");
    reads(4, "15", 15);
    reads(4, "-8", 8);
    refused(4, "16", "0 to 15, in two's complement -8 to 7");
    refused(4, "-9", "0 to 15, in two's complement -8 to 7");
    refused(8, "0x100", "0 to 255");
    refused(8, "0b100000000", "0 to 255");
    refused(64, "18446744073709551616",
            "0 to 18446744073709551615, in two's complement -9223372036854775808 to "
            "9223372036854775807");
    refused(65, "36893488147419103232", "0 to 2^65 - 1, in two's complement -2^64 to 2^64 - 1");
    refused(65, "-18446744073709551617", "2^65");
}

static void test_what_is_no_number(void **state) {
    (void)state;
    static const char *const bad[] = {"",     "-",    "--5",  "+5",      "5-",   " 5",  "5 ",
                                      "0x",   "0b",   "0b2",  "0xg",     "1e3",  "1.0", "-0x5",
                                      "-0b1", "five", "0x-5", "5\n",     "\x1b", "0o7", "b1",
                                      "x1",   "1_0",  "0b",   "\xd9\xa3"};
    for (size_t k = 0; k < sizeof bad / sizeof *bad; k++)
        refused(8, bad[k], "not a number");
}

/* Refused as soon as it is too great, however long it is. */
static void test_a_million_digits(void **state) {
    (void)state;
    char *text = malloc(1000001);
    assert_non_null(text);
    memset(text, '9', 1000000);
    text[1000000] = '\0';
    refused(4096, text, "does not fit 4096 bits");
    free(text);
}

static void writes(unsigned width, uint64_t value, const char *as_unsigned, const char *as_signed) {
    Word word;
    char text[NUMBER_BYTES];
    word_set(&word, width, value);
    number_unsigned(&word, text);
    assert_string_equal(text, as_unsigned);
    number_signed(&word, text);
    assert_string_equal(text, as_signed);
}

static void test_written_in_both_readings(void **state) {
    (void)state;
    writes(1, 0, "0", "0");
    writes(1, 1, "1", "-1");
    writes(8, 0x7f, "127", "127");
    writes(8, 0x80, "128", "-128");
    writes(8, 0xff, "255", "-1");
    writes(64, UINT64_MAX, "18446744073709551615", "-1");
    writes(64, UINT64_C(1000000000), "1000000000", "1000000000");
    writes(64, UINT64_C(1000000000000000001), "1000000000000000001", "1000000000000000001");
}

/* 2^4096 - 1 has 1234 digits and begins 1044388881413152506 (from memory), 2^4095 half of it. */
static void test_the_widest(void **state) {
    (void)state;
    Word word;
    char text[NUMBER_BYTES];
    word_ones(&word, 4096);
    number_unsigned(&word, text);
    assert_int_equal(strlen(text), 1234);
    assert_memory_equal(text, "1044388881413152506", 19);
    Word again;
    Problem problem = {STATUS_DONE, ""};
    assert_true(number_read(text, 4096, "operand a", &again, &problem));
    assert_true(word_equal(&word, &again));
    word_zero(&word, WORD_BITS_MAX);
    word_put(&word, WORD_BITS_MAX - 1, true);
    number_signed(&word, text);
    assert_true(text[0] == '-' && strlen(text) < NUMBER_BYTES);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_form),
        cmocka_unit_test(test_both_ranges),
        cmocka_unit_test(test_what_is_no_number),
        cmocka_unit_test(test_a_million_digits),
        cmocka_unit_test(test_written_in_both_readings),
        cmocka_unit_test(test_the_widest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
