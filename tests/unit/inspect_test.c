/* What is let through of a compiled simulation, and what is not. */
#include "check/run/inspect.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#define BENCH                                                                                      \
    ":vpi_module \"/usr/lib/ivl/system.vpi\";\n"                                                   \
    "v1 .array \"given\", 15 0, 8 0;\n"                                                            \
    "    %vpi_call 2 9 \"$readmemh\", \"given_1\", v1 {0 0 0};\n"                                  \
    "    %vpi_call 2 9 \"$writememb\", \"seen_1\", v2 {0 0 0};\n"                                  \
    "    %vpi_call 2 9 \"$finish\" {0 0 0};\n"

enum { BENCH_BITS = 16 * 9 };

static void assert_passes(const char *text) {
    Problem problem = {STATUS_DONE, ""};
    if (!inspect_compiled(text, BENCH_BITS, &problem))
        fail_msg("%s", problem.text);
}

static void assert_refuses(const char *text, const char *words) {
    Problem problem = {STATUS_DONE, ""};
    assert_false(inspect_compiled(text, BENCH_BITS, &problem));
    assert_int_equal(problem.status, STATUS_UNTESTED);
    if (strstr(problem.text, words) == NULL)
        fail_msg("nothing about \"%s\" in: %s", words, problem.text);
}

static void test_what_prints_and_what_tells_the_time_passes(void **state) {
    (void)state;
    assert_passes(BENCH);
    assert_passes(BENCH "%vpi_call 3 1 \"$display\", \"$fopen\" {0 0 0};\n");
    assert_passes(BENCH
                  "L_1 .sfunc 3 6 \"$time\", \"v64\";\n%vpi_func 3 1 \"$random\" 32 {0 0 0};");
}

static void test_what_reaches_outside_does_not(void **state) {
    (void)state;
    assert_refuses(BENCH "%vpi_call 3 1 \"$fopen\", \"x\" {0 0 0};\n", "'$fopen'");
    assert_refuses(BENCH "%vpi_func/r 3 1 \"$fscanf\" 32 {0 0 0};\n", "'$fscanf'");
    assert_refuses(BENCH "L_1 .sfunc 3 6 \"$fgetc\", \"v64\";\n", "'$fgetc'");
    assert_refuses(BENCH "%vpi_call 3 1 \"$displayed\" {0 0 0};\n", "'$displayed'");
    assert_refuses(BENCH "%vpi_call 3 1 nothing", "an unknown task");
}

static void test_what_the_bench_calls_is_the_benchs_alone(void **state) {
    (void)state;
    assert_refuses("%vpi_call 3 1 \"$finish\" {0 0 0};\n" BENCH, "'$finish'");
    assert_refuses(BENCH "%vpi_call 3 1 \"$readmemh\", \"x\", v3 {0 0 0};\n", "'$readmemh'");
}

static void test_a_call_in_a_string_counts_as_one(void **state) {
    (void)state;
    assert_refuses(BENCH ":file_names 1;\n\"\\\"; %vpi_call 1 1 \"$fopen\";", "'$fopen'");
}

static void test_modules_that_are_not_the_simulators(void **state) {
    (void)state;
    assert_refuses(BENCH ":vpi_module \"./own.vpi\";\n", "own.vpi");
}

static void test_memories_are_bounded(void **state) {
    (void)state;
    assert_passes(BENCH "v2 .array \"table\", 511 0, 4 0;\n");
    assert_refuses(BENCH "v2 .array \"level\", 131071 0, 7 0;\n", "memories");
    assert_refuses(BENCH "v2 .array \"level\", 0 1073741823, 1023 0;\n", "memories");
    assert_refuses(BENCH "v2 .array/real \"level\", 99999999999999999999 0;\n", "memories");
}

static void test_a_name_hides_no_memory(void **state) {
    (void)state;
    assert_refuses(BENCH "v2 .array \"m\",0,0,\", 0 4095, 4095 0;\n", "memories");
    assert_refuses(BENCH "v2 .array \".array\"\", 0 4095, 4095 0;\n", "memories");
    assert_passes(BENCH "v2 .array \"m\", 0 99999, 99999 0\", 0 4, 3 0;\n");
}

static void test_widths_are_those_of_the_instance(void **state) {
    (void)state;
    static const char text[] = "S_1 .scope module, \"other\" \"m\" 2 2;\n"
                               "    .port_info 0 /INPUT 4 \"a\";\n"
                               "S_2 .scope module, \"dut_1\" \"m\" 2 2, 2 1 0, S_1;\n"
                               " .timescale 0 0;\n"
                               "    .port_info 0 /INPUT 8 \"a\";\n"
                               "    .port_info 1 /OUTPUT 9 \"a\"b\";\n"
                               "v1 .net \"x\", 3 0, v2; 1 drivers\n"
                               "S_3 .scope module, \"inner\" \"m\" 2 2;\n"
                               "    .port_info 0 /INPUT 7 \"c\";\n";
    assert_int_equal(inspect_port_bits(text, "dut_1", "a"), 8);
    assert_int_equal(inspect_port_bits(text, "dut_1", "a\"b"), 9);
    assert_int_equal(inspect_port_bits(text, "dut_1", "c"), 0);
    assert_int_equal(inspect_port_bits(text, "dut_2", "a"), 0);
    assert_int_equal(inspect_port_bits("", "dut_1", "a"), 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_prints_and_what_tells_the_time_passes),
        cmocka_unit_test(test_what_reaches_outside_does_not),
        cmocka_unit_test(test_what_the_bench_calls_is_the_benchs_alone),
        cmocka_unit_test(test_a_call_in_a_string_counts_as_one),
        cmocka_unit_test(test_modules_that_are_not_the_simulators),
        cmocka_unit_test(test_memories_are_bounded),
        cmocka_unit_test(test_a_name_hides_no_memory),
        cmocka_unit_test(test_widths_are_those_of_the_instance),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
