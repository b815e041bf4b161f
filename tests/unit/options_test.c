/* The command line, option by option: what each value makes of the unit, what holds when an option
 * is not given, and that a refusal is one plain line. What the program prints and writes for bad
 * input is in command_line_test.sh. */
#include "command_lines.h"

static void refused(const char *options, const char *words) {
    static Request request;
    Problem problem;
    if (parse_line(options, &request, &problem))
        fail_msg("taken: %s", options);
    assert_int_equal(problem.status, STATUS_INVALID);
    if (strstr(problem.text, words) == NULL)
        fail_msg("nothing about '%s' in: %s", words, problem.text);
    for (const char *c = problem.text; *c != '\0'; c++)
        assert_in_range(*c, ' ', '~');
}

/* Section 2 of the conventions: what holds when nothing is said. */
static void test_defaults(void **state) {
    (void)state;
    const Request *request = parsed("");
    const Unit *unit = &request->unit;
    assert_string_equal(unit->name, "addsub8");
    assert_int_equal(unit->width, 8);
    assert_int_equal(unit->choice_count, 2);
    assert_int_equal(unit->choice[0].operation, OP_ADD);
    assert_int_equal(unit->choice[1].operation, OP_SUB);
    assert_int_equal(unit->control, CONTROL_HIGH);
    assert_int_equal(unit->sense, SENSE_NO_BORROW);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        assert_int_equal(unit->flag[flag], flag <= FLAG_NEGATIVE);
    assert_int_equal(unit->overflow, OVERFLOW_WRAP);
    assert_int_equal(unit->structure, STRUCTURE_RIPPLE);
    assert_int_equal(unit->detail, DETAIL_CELLS);
    assert_int_equal(unit->registers, REGISTERS_NONE);
    assert_int_equal(unit->reset, RESET_NONE);
    assert_false(unit->reset_low);
    assert_false(unit->enable);
    assert_string_equal(request->out, ".");
    assert_false(request->overwrite);
    assert_false(request->help);
    assert_int_equal(request->random, OPTIONS_RANDOM_DEFAULT);
    assert_int_equal(request->seed, OPTIONS_SEED_DEFAULT);
    assert_null(request->templates);
}

static void test_numbers(void **state) {
    (void)state;
    assert_int_equal(parsed("--width 1")->unit.width, 1);
    assert_int_equal(parsed("--width=4096")->unit.width, 4096);
    assert_int_equal(parsed("--width 0016")->unit.width, 16);
    assert_int_equal(parsed("--vectors 0")->random, 0);
    assert_int_equal(parsed("--vectors 1000000")->random, 1000000);
    assert_int_equal(parsed("--seed 0")->seed, 0);
    assert_true(parsed("--seed 9223372036854775807")->seed == INT64_MAX);
    static const char *const bad[] = {"0",
                                      "4097",
                                      "-1",
                                      "+1",
                                      "1e3",
                                      "0x8",
                                      "8x",
                                      "' 8'",
                                      "8.0",
                                      "''",
                                      "8,",
                                      "\xef\xbc\x98",
                                      "4294967304" /* 2^32 + 8 */,
                                      "18446744073709551624" /* 2^64 + 8 */};
    for (size_t k = 0; k < sizeof bad / sizeof *bad; k++) {
        char line[64];
        snprintf(line, sizeof line, "--width %s", bad[k]);
        refused(line, "whole number from 1 to 4096");
    }
    refused("--vectors 1000001", "from 0 to 1000000");
    refused("--seed 9223372036854775808", "from 0 to 9223372036854775807");
}

/* The properties that are one value of a list, each value once. */
static void test_values(void **state) {
    (void)state;
    assert_int_equal(parsed("--operations add --control fixed")->unit.control, CONTROL_FIXED);
    assert_int_equal(parsed("--control high")->unit.control, CONTROL_HIGH);
    assert_int_equal(parsed("--control low")->unit.control, CONTROL_LOW);
    assert_int_equal(parsed("--control one-hot")->unit.control, CONTROL_ONE_HOT);
    assert_int_equal(parsed("--control code")->unit.control, CONTROL_CODE);
    assert_int_equal(parsed("--subtract-carry no-borrow")->unit.sense, SENSE_NO_BORROW);
    assert_int_equal(parsed("--subtract-carry borrow")->unit.sense, SENSE_BORROW);
    assert_int_equal(parsed("--overflow wrap")->unit.overflow, OVERFLOW_WRAP);
    assert_int_equal(parsed("--overflow saturate-signed")->unit.overflow, OVERFLOW_SATURATE_SIGNED);
    assert_int_equal(parsed("--overflow saturate-unsigned")->unit.overflow,
                     OVERFLOW_SATURATE_UNSIGNED);
    assert_int_equal(parsed("--structure ripple")->unit.structure, STRUCTURE_RIPPLE);
    assert_int_equal(parsed("--detail operators")->unit.detail, DETAIL_OPERATORS);
    assert_int_equal(parsed("--detail cells")->unit.detail, DETAIL_CELLS);
    assert_int_equal(parsed("--detail gates")->unit.detail, DETAIL_GATES);
    assert_int_equal(parsed("--detail nand")->unit.detail, DETAIL_NAND);
    assert_int_equal(parsed("--structure skip --detail nor")->unit.detail, DETAIL_NOR);
    assert_int_equal(parsed("--registers none")->unit.registers, REGISTERS_NONE);
    assert_int_equal(parsed("--registers output")->unit.registers, REGISTERS_OUTPUT);
    assert_int_equal(parsed("--registers both")->unit.registers, REGISTERS_BOTH);
    assert_int_equal(parsed("--registers both --reset none")->unit.reset, RESET_NONE);
    assert_int_equal(parsed("--registers both --reset sync")->unit.reset, RESET_SYNC);
    assert_int_equal(parsed("--registers both --reset async")->unit.reset, RESET_ASYNC);
    assert_false(parsed("--registers both --reset-level high")->unit.reset_low);
    assert_true(parsed("--registers both --reset-level low")->unit.reset_low);
    assert_true(parsed("--registers both --enable")->unit.enable);
    assert_true(parsed("--overwrite")->overwrite);
    assert_string_equal(parsed("--out harbour")->out, "harbour");
    assert_string_equal(parsed("--templates style")->templates, "style");
    assert_string_equal(parsed("--coverage seen.json")->coverage, "seen.json");
}

/* The message lists the values; a value is written in full, in small letters. */
static void test_values_that_are_none(void **state) {
    (void)state;
    refused("--control up", "it is fixed, high, low, one-hot or code");
    refused("--subtract-carry yes", "it is no-borrow or borrow");
    refused("--overflow saturate", "it is wrap, saturate-signed or saturate-unsigned");
    refused("--structure tree", "it is ripple, fewest, skip");
    refused("--detail Gates", "it is operators, cells, gates, nand or nor");
    refused("--registers input", "it is none, output or both");
    refused("--reset late", "it is none, sync or async");
    refused("--reset-level 0", "it is high or low");
    refused("--control ''", "cannot be ''");
    refused("--detail ''", "cannot be ''");
    refused("--reset ''", "cannot be ''");
}

/* What the program cannot make yet is refused, never made as something else. */
static void test_not_available(void **state) {
    (void)state;
    refused("--structure fewest --detail cells", "use --detail gates");
    refused("--structure sklansky --detail operators", "to the synthesizer");
    assert_int_equal(parsed("--structure sklansky --detail cells")->unit.detail, DETAIL_CELLS);
    refused("--structure depth=2", "depth=3 or more");
    refused("--structure depth=3 --operations adc,sbc", "depth=4 or more");
    refused("--structure depth", "depth=6");
    refused("--structure depth=", "from 1 to 4096");
    refused("--structure depth=0", "from 1 to 4096");
    refused("--structure depth=6x", "from 1 to 4096");
}

/* The flags of a request as a string of their numbers in the enum. */
static void flags_are(const char *options, const char *expected) {
    const Unit *unit = &parsed(options)->unit;
    char text[FLAG_COUNT + 1];
    int count = 0;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (unit->flag[flag])
            text[count++] = (char)('0' + flag);
    text[count] = '\0';
    assert_string_equal(text, expected);
}

static void test_flags(void **state) {
    (void)state;
    flags_are("--flags none", "");
    flags_are("--flags all", "01234567");
    flags_are("--flags all --width 4", "01234567");
    flags_are("--flags all --width 3", "0123456"); /* no column 3, no half-carry */
    flags_are("--width 1 --flags all", "0123456");
    flags_are("--flags carry", "0");
    flags_are("--flags overflow", "1");
    flags_are("--flags zero", "2");
    flags_are("--flags negative", "3");
    flags_are("--flags less-signed", "4");
    flags_are("--flags less-unsigned", "5");
    flags_are("--flags parity", "6");
    flags_are("--flags half-carry", "7");
    flags_are("--flags parity,carry", "06");
    refused("--flags ''", "does not know ''");
    refused("--flags zero,", "does not know ''");
    refused("--flags zero,zero", "lists zero twice");
    refused("--flags all,zero", "does not know 'all'");
    refused("--flags less_signed", "less-signed");
    refused("--flags half-carry --width 3", "--width 4");
}

/* The choices of a request as "operation:code ...", codes in decimal. */
static void choices_are(const char *options, unsigned bits, const char *expected) {
    const Unit *unit = &parsed(options)->unit;
    char text[256] = "";
    for (int k = 0; k < unit->choice_count; k++) {
        size_t used = strlen(text);
        snprintf(text + used, sizeof text - used, "%s%s:%u", k == 0 ? "" : " ",
                 operation_name(unit->choice[k].operation), unit->choice[k].code);
    }
    assert_string_equal(text, expected);
    assert_int_equal(unit->control, CONTROL_CODE);
    assert_int_equal(unit->code_bits, bits);
}

static void test_codes(void **state) {
    (void)state;
    /* by position, in as few bits as there must be */
    choices_are("--operations add --control code", 1, "add:0");
    choices_are("--control code", 1, "add:0 sub:1");
    choices_are("--operations sub,add,inc", 2, "sub:0 add:1 inc:2");
    choices_are("--operations sub,add,inc,dec", 2, "sub:0 add:1 inc:2 dec:3");
    choices_are("--operations sub,add,inc,dec,neg", 3, "sub:0 add:1 inc:2 dec:3 neg:4");
    choices_are("--operations add,adc,sub,sbc,rsb,inc,dec,neg,pass", 4,
                "add:0 adc:1 sub:2 sbc:3 rsb:4 inc:5 dec:6 neg:7 pass:8");
    /* written, the first digit being the highest bit */
    choices_are("--operations add=110,sub=001", 3, "add:6 sub:1");
    choices_are("--operations add=0", 1, "add:0");
    choices_are("--operations add=1111111111111111,sub=0000000000000000", 16, "add:65535 sub:0");
    /* mixed: one without has its place in the list */
    choices_are("--operations add,sub=11,rsb", 2, "add:0 sub:3 rsb:2");
    choices_are("--operations pass=100,sub,add", 3, "pass:4 sub:1 add:2");
}

static void test_bad_operations(void **state) {
    (void)state;
    refused("--operations ''", "does not know ''");
    refused("--operations add,,sub", "does not know ''");
    refused("--operations ,add", "does not know ''");
    refused("--operations add,mul", "'mul'; it knows add, adc, sub, sbc, rsb, inc, dec, neg or");
    refused("--operations ADD", "'ADD'");
    refused("--operations 'add, sub'", "' sub'");
    refused("--operations add,sub,add", "lists add twice");
    refused("--operations add=0,add=1", "lists add twice");
    refused("--operations add=", "binary number");
    refused("--operations add=2", "binary number");
    refused("--operations add=0=1", "binary number");
    refused("--operations add=00000000000000000", "1 to 16 digits");
    refused("--operations add=00,sub=1", "sub in --operations has 1 digits and one before it 2");
    refused("--operations add=01,sub=01", "add and sub in --operations have the same code");
    refused("--operations add=01,sub", "add and sub in --operations have the same code");
    refused("--operations add=0,sub=1,inc", "code 2, which does not fit 1 bits");
    refused("--operations add=0,sub=1 --control one-hot", "has no op field");
    refused("--operations add=0,sub=1 --control high", "has no op field");
}

/* Names are in unit_test.c; here is what becomes of ROLE=NAME. */
static void test_ports(void **state) {
    (void)state;
    const Unit *unit = &parsed("--port a=observed --port b=predicted --port result=residual "
                               "--port subtract=down --port carry=no_borrow")
                            ->unit;
    assert_string_equal(unit->pin[PIN_A], "observed");
    assert_string_equal(unit->pin[PIN_B], "predicted");
    assert_string_equal(unit->pin[PIN_RESULT], "residual");
    assert_string_equal(unit->pin[PIN_LINE], "down");
    assert_string_equal(unit->pin[PIN_FLAG + FLAG_CARRY], "no_borrow");
    assert_string_equal(unit->pin[PIN_FLAG + FLAG_ZERO], "zero");
    /* The order of the options does not matter: roles are looked up when everything is read. */
    unit = &parsed("--port cin=c --port rst_n=clear --port do_sbc=back --reset-level low "
                   "--registers output --control one-hot --operations adc,sbc")
                ->unit;
    assert_string_equal(unit->pin[PIN_CIN], "c");
    assert_string_equal(unit->pin[PIN_RST], "clear");
    assert_string_equal(unit->pin[PIN_DO + OP_SBC], "back");
    assert_string_equal(unit->pin[PIN_DO + OP_ADC], "do_adc");
    unit = &parsed("--port a=b --port b=a")->unit;
    assert_string_equal(unit->pin[PIN_A], "b");
    assert_string_equal(unit->pin[PIN_B], "a");
    refused("--port a", "ROLE=NAME");
    refused("--port =a", "ROLE=NAME");
    refused("--port ''", "ROLE=NAME");
    refused("--port a=", "not a Verilog name");
    refused("--port a=b=c", "not a Verilog name");
    refused("--port a=x --port a=y", "names pin a twice");
    refused("--port a=a --port a=a", "names pin a twice");
    refused("--port a=b", "one name, 'b'");
    refused("--port cin=c", "its pins are subtract a b result carry overflow zero negative");
    refused("--port less-signed=lt --flags less-signed", "its pins are subtract a b result less_");
    refused("--port rst=r --registers both --reset-level low", "clk rst_n");
}

static void test_more_ports_than_pins(void **state) {
    (void)state;
    char line[1024] = "";
    for (int k = 0; k <= PIN_COUNT; k++)
        strcat(line, "--port a=x ");
    refused(line, "more than");
}

static void test_option_names(void **state) {
    (void)state;
    assert_int_equal(parsed("--wid 9")->unit.width, 9); /* short, as long as it is clear */
    refused("--re none", "'--re'");
    refused("--widht 9", "'--widht'");
    refused("--width", "'--width' lacks its value");
    refused("--width 8 --width 8", "--width is given twice");
    refused("--enable --enable", "--enable is given twice");
    refused("--enable=1", "--enable takes no value");
    refused("-w 9", "'-w'");
    refused("--width 8 -xy", "'-xy'");
    refused("add", "takes no 'add'");
    refused("add --width 8", "takes no 'add'");
    refused("--width 8 -- --width", "takes no '--width'");
    refused("''", "takes no ''");
    refused("--out ''", "--out is empty");
    refused("--templates ''", "--templates is empty");
    refused("--coverage ''", "--coverage '' is no plain file name");
    refused("--coverage ../seen.json", "--coverage '../seen.json' is no plain file name");
}

/* --help ends the reading: what comes after it does not matter, what came before it does. */
static void test_help(void **state) {
    (void)state;
    assert_true(parsed("--help")->help);
    assert_true(parsed("--width 8 --help --nonsense")->help);
    refused("--nonsense --help", "'--nonsense'");
    static char text[16384];
    FILE *out = fmemopen(text, sizeof text, "w");
    assert_non_null(out);
    options_help(COMMAND_EMIT, out);
    assert_int_equal(fclose(out), 0);
    static const char *const names[] = {
        "name",      "width",     "operations", "control", "subtract-carry", "flags",  "overflow",
        "structure", "detail",    "registers",  "reset",   "reset-level",    "enable", "port",
        "out",       "overwrite", "vectors",    "seed",    "templates",      "help",   "coverage"};
    for (size_t k = 0; k < sizeof names / sizeof *names; k++) {
        char start[32];
        snprintf(start, sizeof start, "\n  --%s ", names[k]);
        if (strstr(text, start) == NULL)
            fail_msg("--%s is not in the help", names[k]);
    }
    for (const char *line = text; *line != '\0'; line += strcspn(line, "\n") + 1)
        assert_true(strcspn(line, "\n") <= 100);
}

/* Nothing of one reading is left in the next, wherever the first one stopped. */
static void test_readings_are_independent(void **state) {
    (void)state;
    refused("--width 9 -xyz", "'-xyz'");
    assert_int_equal(parsed("")->unit.width, 8);
    refused("one two three --width", "lacks its value");
    assert_int_equal(parsed("--width 7 --flags none")->unit.width, 7);
    assert_true(parsed("--enable --registers both --help")->help);
    const Request *request = parsed("");
    assert_false(request->help);
    assert_false(request->unit.enable);
    assert_true(request->unit.flag[FLAG_CARRY]);
}

/* A message holds no character that acts on a terminal, and no second line, whatever was typed. */
static void test_messages_are_plain(void **state) {
    (void)state;
    static const char *const options[] = {
        "--name ", "--width ",  "--operations ", "--flags ",          "--control ", "--structure ",
        "--port ", "--port a=", "--vectors ",    "--operations add=", "--",         "-",
        ""};
    static const char *const texts[] = {"\033[31mred",       "two\nlines", "back\bspace", "\x7f",
                                        "\xc3\xa9t\xc3\xa9", "\23331m",    "tab\there",   "\r"};
    for (size_t o = 0; o < sizeof options / sizeof *options; o++)
        for (size_t t = 0; t < sizeof texts / sizeof *texts; t++) {
            char line[128];
            snprintf(line, sizeof line, "%s%s", options[o], texts[t]);
            refused(line, "");
        }
    static char long_line[4096];
    for (size_t o = 0; o < sizeof options / sizeof *options; o++) {
        int used = snprintf(long_line, sizeof long_line, "%s", options[o]);
        memset(long_line + used, 'n', 3000);
        long_line[used + 3000] = '\0';
        refused(long_line, "");
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_defaults),
        cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_values),
        cmocka_unit_test(test_values_that_are_none),
        cmocka_unit_test(test_not_available),
        cmocka_unit_test(test_flags),
        cmocka_unit_test(test_codes),
        cmocka_unit_test(test_bad_operations),
        cmocka_unit_test(test_ports),
        cmocka_unit_test(test_more_ports_than_pins),
        cmocka_unit_test(test_option_names),
        cmocka_unit_test(test_help),
        cmocka_unit_test(test_readings_are_independent),
        cmocka_unit_test(test_messages_are_plain),
    };
    return cmocka_run_group_tests_name("options", tests, NULL, NULL);
}
