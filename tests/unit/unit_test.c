/* A unit settled: what the properties left open become, which pins there are and what they are
 * called, what the control pins say, and which combinations and names are refused. The command line
 * is only the shortest way to write a unit here; its own tests are in options_test.c. */
#include "command_lines.h"

static void refused(const char *options, const char *words) {
    static Request request;
    Problem problem;
    if (parse_line(options, &request, &problem))
        fail_msg("taken: %s", options);
    assert_int_equal(problem.status, STATUS_INVALID);
    if (strstr(problem.text, words) == NULL)
        fail_msg("nothing about '%s' in: %s", words, problem.text);
}

static void named(const char *options, const char *expected) {
    assert_string_equal(parsed(options)->unit.name, expected);
}

static void test_default_names(void **state) {
    (void)state;
    named("", "addsub8");
    named("--width 4096", "addsub4096");
    named("--operations adc,sbc --width 16", "adcsbc16");
    named("--operations pass,neg,dec,inc,rsb,sbc,sub,adc,add", "passnegdecincrsbsbcsubadcadd8");
    named("--operations add=1,sub=0 --detail gates --registers both", "addsub8");
    named("--name residual", "residual");
}

/* The standard control style follows from how many operations there are, and from codes. */
static void test_default_control(void **state) {
    (void)state;
    assert_int_equal(parsed("--operations sub")->unit.control, CONTROL_FIXED);
    assert_int_equal(parsed("--operations sub,add")->unit.control, CONTROL_HIGH);
    assert_int_equal(parsed("--operations sub,add,inc")->unit.control, CONTROL_CODE);
    assert_int_equal(parsed("--operations sub=0,add=1")->unit.control, CONTROL_CODE);
    assert_int_equal(parsed("--operations sub=0")->unit.control, CONTROL_CODE);
}

static void test_control_that_does_not_fit(void **state) {
    (void)state;
    refused("--control fixed", "no pin to choose among 2 operations");
    refused("--operations add --control high", "1 is listed; list two, or choose --control fixed");
    refused("--operations add --control low", "--control low chooses between two");
    refused("--operations add,sub,inc --control high", "3 are listed");
    refused("--operations add,sub,inc --control low", "choose --control code or one-hot");
    refused("--operations add --control one-hot", "leaves nothing to choose");
}

/* The reset that registers have unless something else is said. */
static void test_registers(void **state) {
    (void)state;
    assert_int_equal(parsed("")->unit.reset, RESET_NONE);
    assert_int_equal(parsed("--registers output")->unit.reset, RESET_SYNC);
    assert_int_equal(parsed("--registers both")->unit.reset, RESET_SYNC);
    assert_int_equal(unit_latency(&parsed("")->unit), 0);
    assert_int_equal(unit_latency(&parsed("--registers output")->unit), 1);
    assert_int_equal(unit_latency(&parsed("--registers both")->unit), 2);
    refused("--reset sync", "--reset sync without registers");
    refused("--reset async", "--reset async without registers");
    refused("--reset-level low", "nothing to reset");
    refused("--registers output --reset none --reset-level low", "without a reset pin");
    refused("--enable", "no clock to gate");
    refused("--registers none --enable", "no clock to gate");
}

/* The names of a unit's pins in the order of Pin, each with its bits where there are several, the
 * outputs after a colon. */
static void pins_are(const char *options, const char *expected) {
    const Unit *unit = &parsed(options)->unit;
    char text[1024] = "";
    bool outputs = false;
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        assert_int_equal(unit_has(unit, (Pin)pin), unit->pin[pin][0] != '\0');
        if (!unit_has(unit, (Pin)pin))
            continue;
        size_t used = strlen(text);
        unsigned bits = unit_pin_bits(unit, (Pin)pin);
        used += (size_t)snprintf(text + used, sizeof text - used, "%s%s",
                                 pin_is_output((Pin)pin) && !outputs ? ": "
                                 : used > 0                          ? " "
                                                                     : "",
                                 unit->pin[pin]);
        if (bits > 1)
            snprintf(text + used, sizeof text - used, "[%u]", bits);
        outputs = pin_is_output((Pin)pin);
    }
    assert_string_equal(text, expected);
}

static void test_pins(void **state) {
    (void)state;
    pins_are("--flags none", "subtract a[8] b[8]: result[8]");
    pins_are("--flags none --control low", "subtract a[8] b[8]: result[8]");
    pins_are("--flags none --operations sub,add", "mode a[8] b[8]: result[8]");
    pins_are("--flags none --operations add,rsb", "mode a[8] b[8]: result[8]");
    pins_are("--flags none --operations adc,sbc", "mode cin a[8] b[8]: result[8]");
    pins_are("--flags none --operations sub", "a[8] b[8]: result[8]");
    pins_are("--flags none --operations inc --width 1", "a: result");
    pins_are("--flags none --operations inc,dec", "mode a[8]: result[8]");
    pins_are("--flags none --operations adc", "cin a[8] b[8]: result[8]");
    pins_are("--flags none --operations add,sub,inc", "op[2] a[8] b[8]: result[8]");
    pins_are("--flags none --operations add=0101,neg=1111", "op[4] a[8] b[8]: result[8]");
    pins_are("--flags none --control one-hot", "do_add do_sub a[8] b[8]: result[8]");
    pins_are("--flags none --control one-hot --operations pass,neg,dec,inc,rsb,sbc,sub,adc,add",
             "do_add do_adc do_sub do_sbc do_rsb do_inc do_dec do_neg do_pass cin a[8] b[8]: "
             "result[8]");
    pins_are("--flags all", "subtract a[8] b[8]: result[8] carry overflow zero negative "
                            "less_signed less_unsigned parity half_carry");
    pins_are("--flags none --registers output", "clk rst subtract a[8] b[8]: result[8]");
    pins_are("--flags none --registers both --reset none", "clk subtract a[8] b[8]: result[8]");
    pins_are("--flags none --registers both --reset async --reset-level low --enable",
             "clk rst_n en subtract a[8] b[8]: result[8]");
}

/* What the control pins say, as one number a choice, "-" for nothing; and the other way about. */
static void values_are(const char *options, unsigned bits, const char *expected) {
    const Unit *unit = &parsed(options)->unit;
    char text[256] = "";
    assert_int_equal(unit_control_bits(unit), bits);
    for (uint32_t value = 0; value < UINT32_C(1) << bits; value++) {
        int choice = unit_control_choice(unit, value);
        if (choice != UNIT_NOTHING)
            assert_int_equal(unit_control_value(unit, choice), value);
        const char *name = choice == UNIT_NOTHING
                               ? (unit_control_is_contract(unit, value) ? "-" : "x")
                               : operation_name(unit->choice[choice].operation);
        size_t used = strlen(text);
        snprintf(text + used, sizeof text - used, "%s%s", used > 0 ? " " : "", name);
    }
    assert_string_equal(text, expected);
    assert_int_equal(unit_can_idle(unit), strchr(text, '-') != NULL);
}

/* The values from 0 up; - asks for nothing, x is outside the contract. */
static void test_control_values(void **state) {
    (void)state;
    values_are("--operations sub", 0, "sub");
    values_are("--control high", 1, "add sub");
    values_are("--control low", 1, "sub add");
    values_are("--control code", 1, "add sub");
    values_are("--operations add --control code", 1, "add -");
    values_are("--operations add=1", 1, "- add");
    values_are("--operations add,sub,inc", 2, "add sub inc -");
    values_are("--operations add,sub,inc,dec", 2, "add sub inc dec");
    values_are("--operations add=110,sub=001", 3, "- sub - - - - add -");
    values_are("--control one-hot", 2, "- add sub x");
    values_are("--operations inc,dec,neg --control one-hot", 3, "- inc dec x neg x x x");
}

/* One line an operation: its name, b if it reads b, c if it reads cin, s if it subtracts. */
static void test_operation_facts(void **state) {
    (void)state;
    static const char *const expected[OP_COUNT] = {
        "add b", "adc bc", "sub b s", "sbc bc s", "rsb b s", "inc ", "dec  s", "neg  s", "pass "};
    for (int op = 0; op < OP_COUNT; op++) {
        const OperationFacts *facts = operation_facts((Operation)op);
        char text[32], line[64];
        snprintf(text, sizeof text, "%s %s%s%s", facts->name, facts->reads_b ? "b" : "",
                 facts->reads_cin ? "c" : "", facts->subtracts ? " s" : "");
        assert_string_equal(text, expected[op]);
        assert_string_equal(operation_name((Operation)op), facts->name);
        snprintf(line, sizeof line, "--operations %s", facts->name);
        const Unit *unit = &parsed(line)->unit;
        assert_int_equal(unit_any_reads_b(unit), facts->reads_b);
        assert_int_equal(unit_any_reads_cin(unit), facts->reads_cin);
        assert_int_equal(unit_any_subtracts(unit), facts->subtracts);
    }
    assert_true(unit_any_reads_cin(&parsed("--operations inc,add,sbc")->unit));
    assert_false(unit_any_subtracts(&parsed("--operations inc,add,adc")->unit));
}

static void test_parameter(void **state) {
    (void)state;
    assert_true(unit_keeps_width(&parsed("--detail operators")->unit));
    assert_true(unit_keeps_width(&parsed("--detail cells")->unit));
    assert_false(unit_keeps_width(&parsed("--detail gates")->unit));
    assert_false(unit_keeps_width(&parsed("--detail cells --structure skip")->unit));
    refused("--port a=WIDTH", "cannot be called WIDTH");
    refused("--port zero=WIDTH --detail operators", "pin zero cannot be called WIDTH");
    refused("--name WIDTH", "the module cannot be called WIDTH");
    parsed("--name WIDTH --detail gates");
    parsed("--port a=WIDTH --detail gates");
    parsed("--port a=width");
}

/* IEEE 1364-2005 section 3.7: letters, digits, _ and $, the first a letter or _; upper and lower
 * case differ. */
static void test_names(void **state) {
    (void)state;
    static const char *const good[] = {"a",      "_",   "A1",    "_1$",  "g$$",        "Module",
                                       "signal", "bit", "logic", "end_", "a1234567890"};
    static const char *const bad[] = {
        "",     "1a",  "$a",  "a b",  "a-b", "a.b", "a/b",
        "a;b",  "a'b", "a\"", "a\\",  "\\a", "a\n", "\n",
        "..",   "a`",  "a#",  "a[0]", " a",  "a ",  "\xc3\xa9t\xc3\xa9",
        "a\x7f"};
    for (size_t k = 0; k < sizeof good / sizeof *good; k++) {
        Problem problem = {STATUS_DONE, ""};
        assert_true(unit_check_name(good[k], "pin name", &problem));
        assert_int_equal(problem.status, STATUS_DONE);
    }
    for (size_t k = 0; k < sizeof bad / sizeof *bad; k++) {
        Problem problem = {STATUS_DONE, ""};
        assert_false(unit_check_name(bad[k], "pin name", &problem));
        assert_int_equal(problem.status, STATUS_INVALID);
        assert_memory_equal(problem.text, "pin name '", 10);
        for (const char *c = problem.text; *c != '\0'; c++)
            assert_in_range(*c, ' ', '~');
    }
}

/* Some of IEEE 1364-2005 annex B, among them the first, the last and the latest; from memory. */
static void test_keywords(void **state) {
    (void)state;
    static const char *const keywords[] = {"always",   "and",    "automatic", "endmodule",
                                           "generate", "input",  "join",      "localparam",
                                           "module",   "output", "reg",       "signed",
                                           "unsigned", "uwire",  "wire",      "pulsestyle_ondetect",
                                           "xnor",     "xor"};
    for (size_t k = 0; k < sizeof keywords / sizeof *keywords; k++) {
        Problem problem = {STATUS_DONE, ""};
        assert_false(unit_check_name(keywords[k], "module name", &problem));
        assert_non_null(strstr(problem.text, "keyword"));
    }
}

static void test_length_of_names(void **state) {
    (void)state;
    char name[UNIT_NAME_MAX + 2];
    Problem problem = {STATUS_DONE, ""};
    memset(name, 'n', sizeof name);
    name[UNIT_NAME_MAX + 1] = '\0';
    assert_false(unit_check_name(name, "module name", &problem));
    assert_non_null(strstr(problem.text, "1025 characters long; a name has at most 1024"));
    name[UNIT_NAME_MAX] = '\0';
    problem = (Problem){STATUS_DONE, ""};
    assert_true(unit_check_name(name, "module name", &problem));
    char line[UNIT_NAME_MAX + 32];
    snprintf(line, sizeof line, "--port result=%s", name);
    assert_string_equal(parsed(line)->unit.pin[PIN_RESULT], name);
}

static void test_one_name_for_two(void **state) {
    (void)state;
    refused("--port a=x --port b=x", "pins a and b have one name, 'x'");
    refused("--port a=carry", "pins a and carry have one name");
    refused("--port clk=op --registers both --operations add,sub,inc", "clk and op");
    refused("--port a=addsub8", "pin a has the module's own name 'addsub8'");
    refused("--name result", "pin result has the module's own name 'result'");
    /* A name is free where the unit lacks the pin. */
    parsed("--port a=carry --flags none");
    parsed("--port a=clk");
    parsed("--name clk");
    parsed("--port a=A --port b=B --port result=Result");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_default_names),
        cmocka_unit_test(test_default_control),
        cmocka_unit_test(test_control_that_does_not_fit),
        cmocka_unit_test(test_registers),
        cmocka_unit_test(test_pins),
        cmocka_unit_test(test_control_values),
        cmocka_unit_test(test_operation_facts),
        cmocka_unit_test(test_parameter),
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_keywords),
        cmocka_unit_test(test_length_of_names),
        cmocka_unit_test(test_one_name_for_two),
    };
    return cmocka_run_group_tests_name("unit", tests, NULL, NULL);
}
