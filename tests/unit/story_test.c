/* What is said about a worked example: one case for each thing that there is to say. */
#include "workings.h"

static Story story;

static void tell(const char *line) {
    story_free(&story);
    story_tell(worked(line), &story);
}

static int forget(void **state) {
    (void)state;
    story_free(&story);
    memset(&story, 0, sizeof story);
    return 0;
}

static const StoryLine *line_of(const StoryPart *part, const char *label) {
    for (int k = 0; k < part->count; k++)
        if (strcmp(part->line[k].label, label) == 0)
            return &part->line[k];
    fail_msg("no line %s", label);
    return NULL;
}

static void says(const StoryPart *part, const char *label, const char *text) {
    assert_string_equal(line_of(part, label)->text, text);
}

static void test_titles(void **state) {
    (void)state;
    static const char *const titles[][2] = {
        {"--operations add 1 1", "add: a + b, added as a + b + 0"},
        {"--operations adc 1 1", "adc: a + b + carry, added as a + b + cin"},
        {"--operations sub 1 1", "sub: a - b, added as a + not b + 1"},
        {"--operations sbc 1 1", "sbc: a - b - borrow, added as a + not b + cin"},
        {"--operations sbc --subtract-carry borrow 1 1",
         "sbc: a - b - borrow, added as a + not b + not cin"},
        {"--operations rsb 1 1", "rsb: b - a, added as not a + b + 1"},
        {"--operations inc 1", "inc: a + 1, added as a + 0 + 1"},
        {"--operations dec 1", "dec: a - 1, added as a + not 0 + 0"},
        {"--operations neg 1", "neg: -a, added as not a + 0 + 1"},
        {"--operations pass 1", "pass: a, added as a + 0 + 0"},
    };
    for (size_t k = 0; k < sizeof titles / sizeof *titles; k++) {
        tell(titles[k][0]);
        assert_string_equal(story.title, titles[k][1]);
    }
    tell("--name residual --port a=observed --port result=surge 1 1");
    assert_string_equal(story.unit, "residual, 8 bits, a: observed, result: surge");
    tell("--width 1 1 1");
    assert_string_equal(story.unit, "addsub1, 1 bit");
}

static void test_first_carries(void **state) {
    (void)state;
    tell("1 1");
    assert_string_equal(story.first_carry, "add lets no carry enter");
    tell("--operation sub 1 1");
    assert_string_equal(story.first_carry, "sub lets a 1 enter");
    tell("--operations adc --cin 1 1 1");
    assert_string_equal(story.first_carry, "cin");
    tell("--operations sbc --subtract-carry borrow --cin 1 1 1");
    assert_string_equal(story.first_carry, "cin, 1, turned over");
}

static void test_valid_in_both_readings(void **state) {
    (void)state;
    tell("100 27");
    const StoryPart *verdict = &story.verdict;
    says(verdict, "last carries",
         "into the sign column 7: 0, out of it: 0; they are equal, so in two's complement the "
         "result is valid");
    says(verdict, "two's complement", "valid: 100 + 27 = 127 lies in -128 to 127");
    says(verdict, "unsigned", "valid: 100 + 27 = 127 lies in 0 to 255");
    assert_int_equal(line_of(verdict, "unsigned")->tone, TONE_GOOD);
    assert_int_equal(verdict->count, 3);
}

static void test_overflow_above_and_below(void **state) {
    (void)state;
    tell("100 28");
    says(&story.verdict, "two's complement",
         "OVERFLOW: 100 + 28 = 128 is above 127, the greatest that 8 bits hold; the columns give "
         "-128, 2^8 too low");
    assert_int_equal(line_of(&story.verdict, "two's complement")->tone, TONE_BAD);
    says(&story.verdict, "last carries",
         "into the sign column 7: 1, out of it: 0; they differ, so in two's complement the result "
         "overflows");
    tell("--operation sub -100 29");
    says(&story.verdict, "two's complement",
         "OVERFLOW: -100 - 29 = -129 is below -128, the least that 8 bits hold; the columns give "
         "127, 2^8 too high");
    tell("--width 1 1 1");
    says(&story.verdict, "two's complement",
         "OVERFLOW: -1 + (-1) = -2 is below -1, the least that 1 bit holds; the columns give 0, "
         "2^1 too high");
}

static void test_carry_and_borrow(void **state) {
    (void)state;
    tell("200 100");
    says(&story.verdict, "unsigned",
         "CARRY: 200 + 100 = 300 is above 255, the greatest that 8 bits hold; the columns give 44, "
         "2^8 too low");
    tell("--operation sub 3 5");
    says(&story.verdict, "unsigned",
         "BORROW: 3 - 5 = -2 is below 0, the least that 8 bits hold; the columns give 254, 2^8 too "
         "high");
}

/* Each operation's formula with its numbers: a negative one after a sign is in parentheses, carry
 * and borrow are levels whatever the sense of the pin. */
static void test_equations(void **state) {
    (void)state;
    static const char *const sums[][2] = {
        {"--operation sub -3 -5", "valid: -3 - (-5) = 2 lies"},
        {"--operations rsb -3 -5", "valid: -5 - (-3) = -2 lies"},
        {"--operations neg -3", "valid: -(-3) = 3 lies"},
        {"--operations inc -3", "valid: -3 + 1 = -2 lies"},
        {"--operations dec 3", "valid: 3 - 1 = 2 lies"},
        {"--operations pass 3", "valid: 3 = 3 lies"},
        {"--operations adc --cin 1 3 5", "valid: 3 + 5 + 1 = 9 lies"},
        {"--operations adc 3 5", "valid: 3 + 5 + 0 = 8 lies"},
        {"--operations sbc 3 5", "valid: 3 - 5 - 0 = -2 lies"},
        {"--operations sbc --cin 0 3 5", "valid: 3 - 5 - 1 = -3 lies"},
        {"--operations sbc --cin 1 3 5", "valid: 3 - 5 - 0 = -2 lies"},
        {"--operations sbc --subtract-carry borrow 3 5", "valid: 3 - 5 - 0 = -2 lies"},
        {"--operations sbc --subtract-carry borrow --cin 1 3 5", "valid: 3 - 5 - 1 = -3 lies"},
    };
    for (size_t k = 0; k < sizeof sums / sizeof *sums; k++) {
        tell(sums[k][0]);
        const char *text = line_of(&story.verdict, "two's complement")->text;
        if (strncmp(text, sums[k][1], strlen(sums[k][1])) != 0)
            fail_msg("%s: %s", sums[k][0], text);
    }
}

static void test_saturation(void **state) {
    (void)state;
    tell("--overflow saturate-signed 100 28");
    says(&story.verdict, "saturation",
         "127 is delivered in place of the sum: the greatest two's complement number of 8 bits");
    tell("--overflow saturate-signed --operation sub -100 29");
    says(&story.verdict, "saturation",
         "-128 is delivered in place of the sum: the least two's complement number of 8 bits");
    tell("--overflow saturate-unsigned 200 100");
    says(&story.verdict, "saturation",
         "255 is delivered in place of the sum: the greatest unsigned number of 8 bits");
    tell("--overflow saturate-unsigned --operation sub 3 5");
    says(&story.verdict, "saturation",
         "0 is delivered in place of the sum: the least unsigned number of 8 bits");
    tell("--overflow saturate-signed 100 27");
    says(&story.verdict, "saturation",
         "the sum is delivered as it is: read as two's complement it fits");
}

static void number_is(int k, const char *label, const char *as_unsigned, const char *as_signed) {
    assert_string_equal(story.number[k].label, label);
    assert_string_equal(story.number[k].reading[0], as_unsigned);
    assert_string_equal(story.number[k].reading[1], as_signed);
}

static void test_numbers_in_both_readings(void **state) {
    (void)state;
    tell("--operation sub 100 -50 --overflow saturate-signed");
    assert_int_equal(story.number_count, 5);
    number_is(0, "a", "100", "100");
    number_is(1, "b", "206", "-50");
    number_is(2, "exact", "-106", "150");
    number_is(3, "sum", "150", "-106");
    number_is(4, "result", "127", "127");
    tell("--operations neg -128");
    assert_int_equal(story.number_count, 3);
    number_is(1, "exact", "-128", "128");
}

static void test_a_negative_result_is_read_back(void **state) {
    (void)state;
    tell("--operation sub 3 5");
    says(&story.back, "result", "11111110: the sign bit is 1, so it is below 0");
    says(&story.back, "invert", "00000001 = 1");
    says(&story.back, "add one", "00000010 = 2, so the result reads -2");
    tell("-64 -64");
    says(&story.back, "add one", "10000000 = 128, so the result reads -128");
    tell("3 5");
    assert_int_equal(story.back.count, 0);
    tell("--width 40 -1 0");
    says(&story.back, "result", "0xffffffffff: the sign bit is 1, so it is below 0");
    tell("--width 100 -1 0");
    says(&story.back, "result", "0xffffffff...ffffffff: the sign bit is 1, so it is below 0");
}

static void test_reasons_of_flags(void **state) {
    (void)state;
    tell("--flags all 200 100");
    const StoryPart *flags = &story.flags;
    says(flags, "carry 1", "the carry out of column 7: the result does not fit unsigned");
    says(flags, "overflow 0", "the two last carries, 1 in and 1 out, are equal");
    says(flags, "zero 0", "the result has a 1 in column 2");
    says(flags, "negative 0", "the sign bit of the result, column 7");
    says(flags, "less-signed 0", "the exact result in two's complement, 44, is not below 0");
    says(flags, "less-unsigned 0", "the exact result unsigned, 300, is not below 0");
    says(flags, "parity 1", "the result has 3 ones, an odd number");
    says(flags, "half-carry 0",
         "the carry out of column 3: the lowest four columns' result fits unsigned");
    tell("--flags all --operation sub 0x10 0x11");
    says(flags, "carry 0", "the carry out of column 7: a borrow is needed");
    says(flags, "half-carry 0", "the carry out of column 3: a borrow is needed");
    says(flags, "less-unsigned 1", "the exact result unsigned, -1, is below 0");
    tell("--flags all --subtract-carry borrow --operation sub 0x10 0x11");
    says(flags, "carry 1", "the carry out of column 7, 0, turned over: a borrow is needed");
    says(flags, "half-carry 1", "the carry out of column 3, 0, turned over: a borrow is needed");
    tell("--flags zero,parity --operation sub 5 5");
    says(flags, "zero 1", "every bit of the result is 0");
    says(flags, "parity 0", "the result has 0 ones, an even number");
    tell("--flags none 1 1");
    assert_int_equal(flags->count, 0);
}

static void step_is(const char *line, unsigned column, const char *text) {
    char *step = story_step(worked(line), column);
    assert_string_equal(step, text);
    free(step);
}

static void test_steps(void **state) {
    (void)state;
    step_is("0b1000 0b0000 --operation sub", 3, "column 3: 1 + 1 + carry 1 = 1, carry 1");
    step_is("0b1000 8", 3, "column 3: 1 + 1 + carry 0 = 0, carry 1");
    step_is("0b1000 8", 7, "column 7 (sign): 0 + 0 + carry 0 = 0, carry 0");
}

static void test_long_numbers_are_shortened(void **state) {
    (void)state;
    tell("--width 128 --operation sub 5 -7");
    says(&story.verdict, "two's complement", "valid: 5 - (-7) = 12 lies in -2^127 to 2^127 - 1");
    says(&story.verdict, "unsigned",
         "BORROW: 5 - 34028236...68211449 (39 digits) = -34028236...68211444 (39 digits) is below "
         "0, the least that 128 bits hold; the columns give 12, 2^128 too high");
    assert_string_equal(story.number[1].reading[0], "340282366920938463463374607431768211449");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_titles),
        cmocka_unit_test(test_first_carries),
        cmocka_unit_test(test_valid_in_both_readings),
        cmocka_unit_test(test_overflow_above_and_below),
        cmocka_unit_test(test_carry_and_borrow),
        cmocka_unit_test(test_equations),
        cmocka_unit_test(test_saturation),
        cmocka_unit_test(test_numbers_in_both_readings),
        cmocka_unit_test(test_a_negative_result_is_read_back),
        cmocka_unit_test(test_reasons_of_flags),
        cmocka_unit_test(test_steps),
        cmocka_unit_test(test_long_numbers_are_shortened),
    };
    return cmocka_run_group_tests(tests, NULL, forget);
}
