/* A name for what is inside a module: the stem, unless a pin or the module has it. */
#include "verilog/identifier.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* An adder named top whose pins a and b have these names. */
static const Unit *unit_with(const char *a, const char *b) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    unit_init(&unit);
    unit.choice_count = 1;
    unit.choice[0].operation = OP_ADD;
    strcpy(unit.name, "top");
    strcpy(unit.pin[PIN_A], a);
    strcpy(unit.pin[PIN_B], b);
    if (!unit_settle(&unit, &problem))
        fail_msg("%s", problem.text);
    return &unit;
}

static void assert_free(const Unit *unit, const char *stem, bool numbered, const char *expected) {
    assert_string_equal(identifier_free(unit, stem, numbered).text, expected);
}

static void test_a_free_stem_is_taken_as_it_is(void **state) {
    (void)state;
    const Unit *unit = unit_with("a", "b");
    assert_free(unit, "sum", false, "sum");
    assert_free(unit, "sum", true, "sum");
}

static void test_a_pins_name_gives_way(void **state) {
    (void)state;
    const Unit *unit = unit_with("sum", "b");
    assert_free(unit, "sum", false, "sum_w");
    assert_free(unit, "b", false, "b_w");
    assert_free(unit, "result", false, "result_w");
}

static void test_it_gives_way_until_it_is_free(void **state) {
    (void)state;
    assert_free(unit_with("sum", "sum_w"), "sum", false, "sum_w_w");
    assert_free(unit_with("sum_w", "b"), "sum", false, "sum");
}

static void test_the_modules_name_gives_way(void **state) {
    (void)state;
    assert_free(unit_with("a", "b"), "top", false, "top_w");
}

static void test_the_name_of_a_pin_that_is_not_there_is_free(void **state) {
    (void)state;
    const Unit *unit = unit_with("a", "b");
    assert_false(unit_has(unit, PIN_CIN));
    assert_free(unit, "cin", false, "cin");
}

static void test_names_are_compared_whole_and_by_case(void **state) {
    (void)state;
    const Unit *unit = unit_with("summary", "Sum");
    assert_free(unit, "sum", false, "sum");
    assert_free(unit, "su", false, "su");
}

static void test_a_number_belongs_to_the_name(void **state) {
    (void)state;
    const Unit *unit = unit_with("sum_3", "carry_12");
    assert_free(unit, "sum", true, "sum_w");
    assert_free(unit, "carry", true, "carry_w");
    assert_free(unit, "sum", false, "sum");
    assert_free(unit, "carry_1", true, "carry_1");
    assert_free(unit_with("sum_3", "sum_w_0"), "sum", true, "sum_w_w");
}

static void test_what_is_no_number_leaves_the_stem_free(void **state) {
    (void)state;
    assert_free(unit_with("sum_x", "sum3"), "sum", true, "sum");
    assert_free(unit_with("sum_3x", "sum_x3"), "sum", true, "sum");
}

static void test_spans_have_two_numbers(void **state) {
    (void)state;
    assert_free(unit_with("passes_7_4", "b"), "passes", true, "passes_w");
}

static void test_the_longest_names_have_room(void **state) {
    (void)state;
    char longest[UNIT_NAME_MAX + 1];
    memset(longest, 'p', UNIT_NAME_MAX);
    longest[UNIT_NAME_MAX] = '\0';
    Identifier identifier = identifier_free(unit_with(longest, "b"), longest, false);
    assert_int_equal(strlen(identifier.text), UNIT_NAME_MAX + 2);
    assert_int_equal(strncmp(identifier.text, longest, UNIT_NAME_MAX), 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_free_stem_is_taken_as_it_is),
        cmocka_unit_test(test_a_pins_name_gives_way),
        cmocka_unit_test(test_it_gives_way_until_it_is_free),
        cmocka_unit_test(test_the_modules_name_gives_way),
        cmocka_unit_test(test_the_name_of_a_pin_that_is_not_there_is_free),
        cmocka_unit_test(test_names_are_compared_whole_and_by_case),
        cmocka_unit_test(test_a_number_belongs_to_the_name),
        cmocka_unit_test(test_what_is_no_number_leaves_the_stem_free),
        cmocka_unit_test(test_spans_have_two_numbers),
        cmocka_unit_test(test_the_longest_names_have_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
