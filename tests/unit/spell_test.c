/* The command line in the header of a generated file asks for the very unit in that file: what
 * options_spell writes, options_parse reads back to the same request. */
#include "command_lines.h"

/* The spelling of a request, in a static buffer. */
static const char *spelled(const Request *request) {
    static char text[COMMAND_LINE_BYTES];
    FILE *out = fmemopen(text, sizeof text, "w");
    assert_non_null(out);
    options_spell(request, out);
    assert_int_equal(fclose(out), 0);
    return text;
}

static void same_unit(const char *options, const Unit *was, const Unit *is) {
    bool same = strcmp(was->name, is->name) == 0 && was->width == is->width &&
                was->choice_count == is->choice_count && was->code_bits == is->code_bits &&
                was->control == is->control && was->sense == is->sense &&
                was->overflow == is->overflow && was->structure == is->structure &&
                was->depth == is->depth && was->detail == is->detail &&
                was->registers == is->registers && was->reset == is->reset &&
                was->reset_low == is->reset_low && was->enable == is->enable &&
                memcmp(was->flag, is->flag, sizeof was->flag) == 0;
    for (int k = 0; k < was->choice_count && same; k++)
        same = was->choice[k].operation == is->choice[k].operation &&
               was->choice[k].code == is->choice[k].code;
    for (int pin = 0; pin < PIN_COUNT && same; pin++)
        same = strcmp(was->pin[pin], is->pin[pin]) == 0;
    if (!same)
        fail_msg("not the same unit: %s\nspelled: %s", options, spelled(parsed(options)));
}

static void comes_back(const char *options) {
    static Request was;
    static char again[COMMAND_LINE_BYTES];
    const char *prefix = "sumwright emit ";
    was = *parsed(options);
    snprintf(again, sizeof again, "%s", spelled(&was));
    assert_memory_equal(again, prefix, strlen(prefix));
    const Request *is = parsed(again + strlen(prefix));
    same_unit(options, &was.unit, &is->unit);
    assert_int_equal(was.random, is->random);
    assert_int_equal(was.seed, is->seed);
}

/* Every part of the line with every other, some nine thousand units. */
static void test_every_unit_comes_back(void **state) {
    (void)state;
    static const char *const operations[] = {
        "",
        "--operations add",
        "--operations sbc",
        "--operations add --control code",
        "--operations add=0",
        "--operations add=1",
        "--operations add=000",
        "--operations sub,add",
        "--control low",
        "--control one-hot",
        "--control code",
        "--operations add=0,sub=1",
        "--operations add=1,sub=0",
        "--operations add=00,sub=01",
        "--operations add,sub=0111",
        "--operations add,sub,inc",
        "--operations dec,neg,pass --control one-hot",
        "--operations add=10,sub=01,adc=00",
        "--operations add,sub=11,rsb",
        "--operations add,adc,sub,sbc,rsb,inc,dec,neg,pass",
        "--operations pass,neg,dec,inc,rsb,sbc,sub,adc,add --control one-hot",
        "--operations add=0000000000000000,pass=1111111111111111",
    };
    static const char *const properties[] = {
        "--width 1",
        "--width 4096",
        "--subtract-carry borrow",
        "--flags all",
        "--flags none",
        "--width 3 --flags all",
        "--flags parity",
        "--flags negative,zero,overflow,carry",
        "--overflow saturate-signed",
        "--overflow saturate-unsigned --detail operators",
        "--detail operators",
        "--detail cells",
        "--detail gates",
    };
    static const char *const registers[] = {
        "",
        "--reset none --reset-level high",
        "--registers output",
        "--registers both --reset sync",
        "--registers output --reset none",
        "--registers both --reset async --reset-level low",
        "--registers both --reset none --enable",
        "--registers output --reset-level low --enable --port rst_n=clear",
    };
    static const char *const rest[] = {
        "",
        "--name gauge --vectors 0 --seed 0",
        "--name 'g$1' --port 'a=observed$' --port result=_r --vectors 1000000",
        "--seed 9223372036854775807 --port a=result --port result=a",
    };
    char line[512];
    for (size_t o = 0; o < sizeof operations / sizeof *operations; o++)
        for (size_t p = 0; p < sizeof properties / sizeof *properties; p++)
            for (size_t r = 0; r < sizeof registers / sizeof *registers; r++)
                for (size_t k = 0; k < sizeof rest / sizeof *rest; k++) {
                    snprintf(line, sizeof line, "%s %s %s %s", operations[o], properties[p],
                             registers[r], rest[k]);
                    comes_back(line);
                }
}

/* The longest names there may be: the line is as long as they need. */
static void test_long_names_come_back(void **state) {
    (void)state;
    static char line[COMMAND_LINE_BYTES];
    char name[UNIT_NAME_MAX];
    memset(name, 'n', sizeof name);
    name[UNIT_NAME_MAX - 1] = '\0';
    snprintf(line, sizeof line, "--name m%s --port a=a%s --port b=b%s --port result=_%s", name,
             name, name, name);
    comes_back(line);
}

static void reads(const char *options, const char *expected) {
    assert_string_equal(spelled(parsed(options)), expected);
}

/* What is said is what differs from the defaults, after the name, the width and the operations. */
static void test_the_line(void **state) {
    (void)state;
    reads("", "sumwright emit --name addsub8 --width 8 --operations add,sub");
    reads("--control high --flags carry,overflow,zero,negative --reset none --detail cells "
          "--vectors 2000 --seed 1 --port a=a --overwrite",
          "sumwright emit --name addsub8 --width 8 --operations add,sub");
    reads("--operations add=0,sub=1",
          "sumwright emit --name addsub8 --width 8 --operations add,sub --control code");
    reads("--operations add=01,sub=11 --name alu",
          "sumwright emit --name alu --width 8 --operations add=01,sub=11");
    reads("--flags none --registers both --reset async --reset-level low --enable",
          "sumwright emit --name addsub8 --width 8 --operations add,sub --flags none "
          "--registers both --reset async --reset-level low --enable");
    reads("--port subtract=down --port 'result=r$'",
          "sumwright emit --name addsub8 --width 8 --operations add,sub --port subtract=down "
          "--port result='r$'");
}

/* Folders are the user's business: nothing of them gets into a file. */
static void test_folders_are_left_out(void **state) {
    (void)state;
    reads("--out /home/gauge/private --templates /home/gauge/style",
          "sumwright emit --name addsub8 --width 8 --operations add,sub --templates DIR");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_unit_comes_back),
        cmocka_unit_test(test_long_names_come_back),
        cmocka_unit_test(test_the_line),
        cmocka_unit_test(test_folders_are_left_out),
    };
    return cmocka_run_group_tests_name("spell", tests, NULL, NULL);
}
