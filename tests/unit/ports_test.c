/* Which module is the unit and which port is which pin: found, asked for, or refused. */
#include "check/read/ports.h"
#include "command_lines.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static const ParameterSettings none = {NULL, 0};

/* What mapping this text to the unit of these options says: "a=x b=y ..." or the problem. */
static void map(const char *options, const char *text, char *said, size_t room) {
    const Unit *unit = &parsed(options)->unit;
    Problem problem = {STATUS_DONE, ""};
    Headers headers = {NULL, 0, false, false, 0};
    headers_read(&headers, text, strlen(text));
    const HeaderModule *module = ports_module(&headers, NULL, &problem);
    Mapping mapping;
    if (module == NULL || !ports_map(unit, module, &none, &mapping, &problem)) {
        assert_int_equal(problem.status, STATUS_UNTESTED);
        assert_true(strlen(problem.text) < room);
        strcpy(said, problem.text);
        headers_free(&headers);
        return;
    }
    size_t used = 0;
    said[0] = '\0';
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (mapping.port[pin] != NULL)
            used += (size_t)snprintf(said + used, room - used, "%s%s=%s", used > 0 ? " " : "",
                                     unit_role(unit, (Pin)pin), mapping.port[pin]->name);
    if (mapping.parameter != NULL)
        snprintf(said + used, room - used, " #%s", mapping.parameter);
    headers_free(&headers);
}

static void assert_maps(const char *options, const char *text, const char *expected) {
    char said[1024];
    map(options, text, said, sizeof said);
    assert_string_equal(said, expected);
}

static void assert_refuses(const char *options, const char *text, const char *words) {
    char said[1024];
    map(options, text, said, sizeof said);
    if (strstr(said, words) == NULL)
        fail_msg("nothing about \"%s\" in: %s", words, said);
}

static void test_own_names_come_first(void **state) {
    (void)state;
    assert_maps("--width 4 --flags carry",
                "module m(input [3:0] a, b, input subtract, output [3:0] result, output carry);",
                "subtract=subtract a=a b=b result=result carry=carry");
}

static void test_names_of_the_trade(void **state) {
    (void)state;
    assert_maps("--width 4",
                "module m(input [3:0] x, y, input m, output [3:0] s, output co, v, z, n);",
                "subtract=m a=x b=y result=s carry=co overflow=v zero=z negative=n");
    assert_maps(
        "--width 4 --flags carry",
        "module m(input [3:0] level_b, level_a, input add_sub, output [3:0] d, output C_4);",
        "subtract=add_sub a=level_a b=level_b result=d carry=C_4");
    assert_maps(
        "--width 4",
        "module m(input [3:0] A, B, input Sub, output [3:0] Diff, output Cout, OVF, ZF, S);",
        "subtract=Sub a=A b=B result=Diff carry=Cout overflow=OVF zero=ZF negative=S");
    assert_maps(
        "--width 8 --operations adc,sbc --flags carry",
        "module m(input [7:0] i_op1, i_op2, input i_sel, ci, output [7:0] o_y, output o_c);",
        "mode=i_sel cin=ci a=i_op1 b=i_op2 result=o_y carry=o_c");
    assert_maps("--width 8 --registers output --enable --flags none",
                "module m(input clock, reset_n, ce, input [7:0] in0, in1, input add_sub,"
                " output reg [7:0] q);",
                "clk=clock rst=reset_n en=ce subtract=add_sub a=in0 b=in1 result=q");
    assert_maps("--width 8 --operations add,sub,inc --control one-hot --flags none",
                "module m(input [7:0] a, b, input add_req, sub, is_inc, output [7:0] r);",
                "do_add=add_req do_sub=sub do_inc=is_inc a=a b=b result=r");
}

static void test_direction_and_width_tell_equal_names_apart(void **state) {
    (void)state;
    assert_maps("--width 4 --flags carry,zero --operations adc,sbc",
                "module m(input [3:0] x, y, input s, c, output [3:0] z, output cy, zero);",
                "mode=s cin=c a=x b=y result=z carry=cy zero=zero");
    assert_maps("--width 4 --operations sub --flags zero",
                "module m(input [3:0] x, y, output [3:0] z_o, output z);",
                "a=x b=y result=z_o zero=z");
}

static void test_the_only_one_left(void **state) {
    (void)state;
    assert_maps("--width 12 --operations sub --flags none",
                "module m(input [11:0] a, input [11:0] predicted, output [11:0] residual);",
                "a=a b=predicted result=residual");
    assert_maps("--width 4 --flags none",
                "module m(input [3:0] a, b, input tide_falls, output [3:0] r);",
                "subtract=tide_falls a=a b=b result=r");
}

static void test_flags_that_are_lacking_are_left_out(void **state) {
    (void)state;
    assert_maps("--width 4", "module m(input [3:0] a, b, input m, output [3:0] s, output p);",
                "subtract=m a=a b=b result=s");
}

static void test_ambiguity_is_asked_about(void **state) {
    (void)state;
    const char *text = "module m(input [11:0] observed, predicted, output [11:0] residual);";
    const char *options = "--width 12 --operations sub --flags none";
    assert_refuses(options, text,
                   "which port is a cannot be told; add --port a=observed or "
                   "--port a=predicted");
    assert_maps("--width 12 --operations sub --flags none --port a=observed", text,
                "a=observed b=predicted result=residual");
    assert_refuses("--width 4 --flags none",
                   "module m(input [3:0] a, b, input s, output [3:0] sum, diff);",
                   "--port result=sum or --port result=diff");
    assert_refuses("--width 4 --flags overflow",
                   "module m(input [3:0] a, b, input s, output [3:0] sum, output bad);",
                   "--port overflow=bad, or leave it out of --flags");
}

static void test_what_does_not_fit_is_refused(void **state) {
    (void)state;
    assert_refuses("--width 8 --flags none",
                   "module m(input [3:0] a, input [7:0] b, input m, output [7:0] s);",
                   "port 'a' has 4 bits, and a of the unit has 8");
    assert_refuses("--width 4 --flags none", "module m(input [3:0] a, b, output [3:0] s);",
                   "no port for subtract");
    assert_refuses("--width 4 --flags none", "module m(input [3:0] a, b, output m, input [3:0] s);",
                   "port 'm' is an output, and subtract of the unit is an input");
    assert_refuses("--width 4 --flags none",
                   "module m(input [3:0] a, b, input m, cin, output [3:0] s);", "adc or sbc");
    assert_refuses("--width 4 --flags none",
                   "module m(input clk, input [3:0] a, b, input m, output [3:0] s);",
                   "--registers output");
    assert_refuses("--width 4 --registers output --flags none",
                   "module m(input clk, input [3:0] a, b, input m, output [3:0] s);",
                   "--reset none");
    assert_refuses("--width 4 --flags none --port a=level",
                   "module m(input [3:0] a, b, input m, output [3:0] s);", "no port 'level'");
    assert_refuses("--width 4 --flags none --port a=s",
                   "module m(input [3:0] a, b, input m, output [3:0] s);", "an output; a is");
}

static void test_a_width_parameter_is_set(void **state) {
    (void)state;
    const char *text = "module m #(parameter N = 4, K = 1)(input [N-1:0] a, b, output [N-1:0] s);";
    assert_maps("--width 32 --operations add --flags none", text, "a=a b=b result=s #N");
    assert_maps("--width 4 --operations add --flags none", text, "a=a b=b result=s");
}

static void test_the_module_is_found(void **state) {
    (void)state;
    const char *parts =
        "module half(input a, b, output s); endmodule\n"
        "module unit(input [3:0] a, b, output [3:0] s); half h0(a, b, s); endmodule\n";
    char text[1024];
    assert_maps("--width 4 --operations add --flags none", parts, "a=a b=b result=s");
    snprintf(text, sizeof text, "%s module bench; unit u(1, 2, s); endmodule", parts);
    assert_maps("--width 4 --operations add --flags none", text, "a=a b=b result=s");
    snprintf(text, sizeof text, "%s module tide(input x, output y); endmodule", parts);
    assert_refuses("--width 4", text, "add --module unit or --module tide");
    assert_refuses("--width 4", "observed minus predicted", "there is no module in it");
    assert_refuses("--width 4", "module bench; endmodule", "none of its modules");
}

static void test_low_resets_by_name(void **state) {
    (void)state;
    assert_true(ports_says_low("rst_n") && ports_says_low("nreset") && ports_says_low("RST_B"));
    assert_false(ports_says_low("rst") || ports_says_low("reset") || ports_says_low("n"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_own_names_come_first),
        cmocka_unit_test(test_names_of_the_trade),
        cmocka_unit_test(test_direction_and_width_tell_equal_names_apart),
        cmocka_unit_test(test_the_only_one_left),
        cmocka_unit_test(test_flags_that_are_lacking_are_left_out),
        cmocka_unit_test(test_ambiguity_is_asked_about),
        cmocka_unit_test(test_what_does_not_fit_is_refused),
        cmocka_unit_test(test_a_width_parameter_is_set),
        cmocka_unit_test(test_the_module_is_found),
        cmocka_unit_test(test_low_resets_by_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
