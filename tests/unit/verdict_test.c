/* A check from files to a verdict that has travelled, and verdicts that did not arrive whole. */
#include "check/run/folder.h"
#include "check/verdict.h"
#include "command_lines.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* What is written of a design, the bytes that travel. */
typedef struct {
    char *bytes;
    size_t count;
} Reply;

static Reply reply_on(const char *options, const char *text, bool flags_asked) {
    Problem problem = {STATUS_DONE, ""};
    Simulator simulator;
    char *folder = folder_make(&problem), *inner = folder_path(folder, "run");
    char *path = folder_path(folder, "mine.v");
    FILE *file = fopen(path, "w");
    assert_true(file != NULL && fputs(text, file) != EOF && fclose(file) == 0);
    assert_true(folder_create(inner) && simulator_find(&simulator, &problem));
    Question question = {.simulator = &simulator,
                         .unit = &parsed(options)->unit,
                         .flags_asked = flags_asked,
                         .plan = {.random = 20, .seed = 1},
                         .paths = &path,
                         .path_count = 1};
    Reply reply = {NULL, 0};
    FILE *stream = open_memstream(&reply.bytes, &reply.count);
    verdict_find(&question, inner, stream);
    fclose(stream);
    simulator_free(&simulator);
    folder_remove(folder);
    free(path);
    free(inner);
    free(folder);
    return reply;
}

static Verdict verdict_on(const char *options, const char *text, bool flags_asked) {
    Verdict verdict;
    Reply reply = reply_on(options, text, flags_asked);
    assert_true(verdict_read(&verdict, reply.bytes, reply.count));
    free(reply.bytes);
    return verdict;
}

#define HEAD "module u(input [3:0] a, b, input m, output [3:0] s); assign s = "

static void test_a_pass_names_what_it_left_out(void **state) {
    (void)state;
    Verdict verdict = verdict_on("--width 4", HEAD "m ? a - b : a + b; endmodule", false);
    assert_int_equal(verdict.kind, VERDICT_PASS);
    assert_int_equal(verdict.cases, 512);
    assert_int_equal(verdict.wrong, 0);
    assert_string_equal(verdict.left_out, "carry overflow zero negative");
    verdict_free(&verdict);
    verdict = verdict_on("--width 4 --flags zero", HEAD "m ? a - b : a + b; endmodule", true);
    assert_int_equal(verdict.kind, VERDICT_WRONG);
    assert_string_equal(verdict.mistake[0].name, "pin-missing");
    assert_string_equal(verdict.mistake[0].detail, "zero");
    verdict_free(&verdict);
}

static void test_a_wrong_one_is_explained(void **state) {
    (void)state;
    Verdict verdict = verdict_on("--width 4", HEAD "m ? a + ~b : a + b; endmodule", false);
    assert_int_equal(verdict.kind, VERDICT_WRONG);
    assert_int_equal(verdict.wrong, 256);
    assert_string_equal(verdict.first_bad, "0");
    assert_int_equal(verdict.mistake_count, 1);
    assert_string_equal(verdict.mistake[0].name, "first-carry-missing");
    assert_true(verdict.mistake[0].share > 0.999 && !verdict.mistake[0].nearest);
    assert_non_null(strstr(verdict.example, "smallest mismatch"));
    verdict_free(&verdict);
}

static void test_what_cannot_be_tested_says_why(void **state) {
    (void)state;
    static const struct {
        const char *text, *reason;
    } cases[] = {
        {"", "is empty"},
        {"wire w;", "does not compile"},
        {HEAD "a + ; endmodule", "does not compile"},
        {"module u(input [3:0] a, b, input m, x, output [3:0] s); endmodule",
         "is no pin of this unit"},
        {"module \\`u (input [3:0] a, b, input m, output [3:0] s); endmodule", "read as something"},
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        Verdict verdict = verdict_on("--width 4", cases[k].text, false);
        assert_int_equal(verdict.kind, VERDICT_UNTESTED);
        if (strstr(verdict.reason, cases[k].reason) == NULL)
            fail_msg("nothing of \"%s\" in: %s", cases[k].reason, verdict.reason);
        verdict_free(&verdict);
    }
}

/* Cut at any byte, a verdict is none. */
static void test_a_verdict_that_is_cut_is_none(void **state) {
    (void)state;
    Reply reply = reply_on("--width 4", HEAD "m ? a + ~b : a + b; endmodule", false);
    Verdict verdict;
    for (size_t count = 0; count < reply.count; count++) {
        char *cut = calloc(count + 1, 1);
        memcpy(cut, reply.bytes, count);
        assert_false(verdict_read(&verdict, cut, count));
        verdict_free(&verdict);
        free(cut);
    }
    free(reply.bytes);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_pass_names_what_it_left_out),
        cmocka_unit_test(test_a_wrong_one_is_explained),
        cmocka_unit_test(test_what_cannot_be_tested_says_why),
        cmocka_unit_test(test_a_verdict_that_is_cut_is_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
