/* What a survey counts and marks: the ends of the front and the front itself, on made-up figures
 * and on real ones. */
#include "commands/survey.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    uint32_t gates, levels;
    const char *marks; /* s smallest, h shallowest, f on the front */
} Case;

static void assert_marks(const Case *cases, size_t count) {
    SurveyRow row[8] = {{.name = ""}};
    for (size_t k = 0; k < count; k++)
        row[k].cost = (Cost){.gates = cases[k].gates, .levels = cases[k].levels};
    survey_mark(row, count);
    for (size_t k = 0; k < count; k++) {
        assert_int_equal(row[k].smallest, strchr(cases[k].marks, 's') != NULL);
        assert_int_equal(row[k].shallowest, strchr(cases[k].marks, 'h') != NULL);
        assert_int_equal(row[k].front, strchr(cases[k].marks, 'f') != NULL);
    }
}

static void test_the_front_and_its_ends(void **state) {
    (void)state;
    const Case cases[] = {
        {56, 20, "sf"}, {70, 14, "f"}, {79, 15, ""}, {91, 11, "hf"}, {92, 12, ""}};
    assert_marks(cases, 5);
}

/* Of those with equally few gates, what has more levels is not on the front. */
static void test_an_equal_with_more_of_the_other_is_off(void **state) {
    (void)state;
    const Case cases[] = {{56, 20, "sf"}, {56, 21, ""}, {91, 11, "hf"}, {95, 11, ""}};
    assert_marks(cases, 4);
}

static void test_equals_share_a_mark(void **state) {
    (void)state;
    const Case cases[] = {{56, 20, "sf"}, {56, 20, "sf"}, {76, 12, "hf"}, {76, 12, "hf"}};
    assert_marks(cases, 4);
}

static void test_one_alone_is_everything(void **state) {
    (void)state;
    const Case cases[] = {{56, 20, "shf"}};
    assert_marks(cases, 1);
}

/* ---- from requests ------------------------------------------------------------------------- */

/* The survey of a command line, its words after "cost"; NULL ends them. */
static void survey_of(const char *const *words, Survey *survey) {
    static Request request;
    static char text[16][64];
    char *argv[17] = {NULL};
    int argc = 1;
    argv[0] = text[0];
    snprintf(text[0], sizeof text[0], "cost");
    for (; words[argc - 1] != NULL; argc++) {
        snprintf(text[argc], sizeof text[argc], "%s", words[argc - 1]);
        argv[argc] = text[argc];
    }
    Problem problem = {STATUS_DONE, ""};
    if (!options_parse(COMMAND_COST, argc, argv, &request, &problem) ||
        !survey_make(&request, survey, &problem))
        fail_msg("%s", problem.text);
}

/* The figures of a ripple adder are those of tests/unit/cost_test.c. */
static void test_widths_and_structures_in_the_order_asked_for(void **state) {
    (void)state;
    Survey survey = {0};
    survey_of((const char *const[]){"--operations", "add", "--flags", "carry", "--widths", "9,2,64",
                                    "--structures", "fewest,ripple", NULL},
              &survey);
    const unsigned widths[] = {9, 2, 64};
    assert_int_equal(survey.count, 3);
    for (size_t k = 0; k < 3; k++) {
        unsigned n = widths[k];
        const SurveyWidth *at = &survey.width[k];
        assert_int_equal(at->width, n);
        assert_int_equal(at->bound.gates, 5 * n - 3);
        assert_string_equal(at->title, "add with carry");
        assert_int_equal(at->count, 2);
        assert_string_equal(at->row[0].name, "fewest");
        assert_string_equal(at->row[1].name, "ripple");
        assert_int_equal(at->row[1].cost.gates, 5 * n - 3);
        assert_int_equal(at->row[1].cost.levels, 2 * n - 1);
        assert_int_equal(at->gap_count, 0);
    }
    survey_free(&survey);
}

static void test_a_unit_of_one_width_and_structure_is_one_row(void **state) {
    (void)state;
    Survey survey = {0};
    survey_of((const char *const[]){"--width", "5", "--structure", "ripple", NULL}, &survey);
    assert_int_equal(survey.count, 1);
    assert_int_equal(survey.width[0].width, 5);
    assert_int_equal(survey.width[0].count, 1);
    assert_true(survey.width[0].row[0].smallest && survey.width[0].row[0].shallowest);
    survey_free(&survey);
}

/* The smallest circuits have none for nine operations: not asked for by name, that is a gap. */
static void test_what_the_unit_cannot_have_is_left_out(void **state) {
    (void)state;
    Survey survey = {0};
    survey_of((const char *const[]){"--operations", "add,adc,sub,sbc,rsb,inc,dec,neg,pass", NULL},
              &survey);
    assert_int_equal(survey.count, 4);
    for (size_t k = 0; k < survey.count; k++) {
        bool left_out = false;
        for (size_t gap = 0; gap < survey.width[k].gap_count; gap++)
            left_out = left_out || strcmp(survey.width[k].gap[gap].name, "fewest") == 0;
        assert_true(left_out);
        assert_string_equal(survey.width[k].row[0].name, "ripple");
    }
    survey_free(&survey);
}

/* all: half-carry where there is a column 3. Its pin changes no other figure here. */
static void test_all_flags_at_every_width(void **state) {
    (void)state;
    Survey survey = {0};
    survey_of(
        (const char *const[]){"--flags", "all", "--widths", "3,4", "--structures", "ripple", NULL},
        &survey);
    assert_null(strstr(survey.width[0].title, "half-carry"));
    assert_non_null(strstr(survey.width[1].title, "half-carry"));
    survey_free(&survey);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_front_and_its_ends),
        cmocka_unit_test(test_an_equal_with_more_of_the_other_is_off),
        cmocka_unit_test(test_equals_share_a_mark),
        cmocka_unit_test(test_one_alone_is_everything),
        cmocka_unit_test(test_widths_and_structures_in_the_order_asked_for),
        cmocka_unit_test(test_a_unit_of_one_width_and_structure_is_one_row),
        cmocka_unit_test(test_what_the_unit_cannot_have_is_left_out),
        cmocka_unit_test(test_all_flags_at_every_width),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
