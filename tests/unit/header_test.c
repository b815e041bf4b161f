/* What is read of a Verilog header, in the styles that people write them in. */
#include "check/read/header.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static const ParameterSettings none = {NULL, 0};

/* "in a 4, out s ?": direction, name and bits (? when not known) of each port of the last module.
 */
static void assert_ports(const char *text, const char *expected) {
    static const char *const directions[] = {"?", "in", "out", "inout"};
    Headers headers = {NULL, 0, false, false, 0};
    char ports[1024] = "";
    size_t used = 0;
    headers_read(&headers, text, strlen(text));
    assert_true(headers.module_count > 0);
    const HeaderModule *module = &headers.module[headers.module_count - 1];
    for (size_t k = 0; k < module->port_count; k++) {
        const HeaderPort *port = &module->port[k];
        unsigned bits = header_port_bits(module, port, &none);
        used += (size_t)snprintf(ports + used, sizeof ports - used, "%s%s %s ", k == 0 ? "" : ", ",
                                 directions[port->direction], port->name);
        used += (size_t)snprintf(ports + used, sizeof ports - used, bits == 0 ? "?" : "%u", bits);
    }
    assert_string_equal(ports, expected);
    headers_free(&headers);
}

static void test_ansi_header(void **state) {
    (void)state;
    assert_ports("module m(input [3:0] a, b, input wire c, output reg [4:0] s); endmodule",
                 "in a 4, in b 4, in c 1, out s 5");
    assert_ports("module m(input signed [7:0] a, output logic signed [7:0] y, inout wire z);",
                 "in a 8, out y 8, inout z 1");
    assert_ports("module m(input a, output [1:0] s = 2'b0); endmodule", "in a 1, out s 2");
    assert_ports("module m; endmodule", "");
    assert_ports("module m(); endmodule", "");
}

static void test_non_ansi_header(void **state) {
    (void)state;
    assert_ports("module m(a, b, s);\n input [3:0] a, b;\n output s;\n reg s;\nendmodule",
                 "in a 4, in b 4, out s 1");
    assert_ports("module m(.level(x), s); input [7:0] x; output [7:0] s; endmodule",
                 "in level 8, out s 8");
    assert_ports("module m(a, s); input a; endmodule", "in a 1, ? s 1");
}

static void test_comments_and_attributes_are_passed_over(void **state) {
    (void)state;
    assert_ports("// module x(input no);\n/* module y(input no); */\n"
                 "(* keep = \"module z(input no)\" *) module m(\n"
                 "  (* mark *) input /* [3:0] */ [1:0] a, // input b,\n  output s);\nendmodule",
                 "in a 2, out s 1");
    assert_ports("module m(input a, output reg s); always @(*) s = a; endmodule",
                 "in a 1, out s 1");
    assert_ports("`timescale 1ns/1ps\n`define W 3 \\\n module x(input no);\nmodule m(input a);",
                 "in a 1");
}

static void test_inputs_of_functions_and_tasks_are_no_ports(void **state) {
    (void)state;
    assert_ports("module m(a, s); input a; output s;\n"
                 "function f; input [7:0] s; f = s[0]; endfunction\n"
                 "task t; input [3:0] a; begin end endtask endmodule",
                 "in a 1, out s 1");
}

static void test_widths_are_computed_where_they_can_be(void **state) {
    (void)state;
    assert_ports("module m #(parameter WIDTH = 12, parameter integer M = (WIDTH+1)*2)\n"
                 "(input [WIDTH-1:0] a, input [0:M/2] b, output [WIDTH:1] s); endmodule",
                 "in a 12, in b 14, out s 12");
    assert_ports("module m(a); parameter N = 8'h10; parameter [3:0] K = N - 'd1;\n"
                 "input [K:0] a; endmodule",
                 "in a 16");
    assert_ports("module m(input [`W-1:0] a, input [$clog2(9):0] b, input [X:0] c); endmodule",
                 "in a ?, in b ?, in c ?");
    assert_ports("module m #(parameter A = A + A, B = 1/0)(input [A:0] a, input [B:0] b);",
                 "in a ?, in b ?");
}

static void test_parameters_are_set_from_outside(void **state) {
    (void)state;
    const char *text = "module m #(parameter W = 4, localparam L = 2)(input [W-1:0] a); endmodule";
    const ParameterSetting setting = {"W", "32"};
    const ParameterSettings settings = {&setting, 1};
    Headers headers = {NULL, 0, false, false, 0};
    headers_read(&headers, text, strlen(text));
    const HeaderModule *module = &headers.module[0];
    assert_int_equal(module->parameter_count, 1);
    assert_string_equal(module->parameter[0].name, "W");
    assert_string_equal(module->parameter[0].value, "4");
    assert_int_equal(header_port_bits(module, &module->port[0], &settings), 32);
    assert_true(header_range_names(&module->port[0], "W"));
    assert_false(header_range_names(&module->port[0], "L"));
    headers_free(&headers);
}

static void test_escaped_names(void **state) {
    (void)state;
    const char *text = "module \\add-sub (input \\a[0] , input \\input , output s); endmodule";
    Headers headers = {NULL, 0, false, false, 0};
    headers_read(&headers, text, strlen(text));
    assert_int_equal(headers.module_count, 1);
    assert_string_equal(headers.module[0].name, "add-sub");
    assert_int_equal(headers.module[0].port_count, 3);
    assert_string_equal(headers.module[0].port[0].name, "a[0]");
    assert_string_equal(headers.module[0].port[1].name, "input");
    assert_true(headers.module[0].port[1].escaped);
    headers_free(&headers);
}

static void test_used_modules(void **state) {
    (void)state;
    const char *text = "module top(input a); full fa(.a(a)); half #(3) h(a); endmodule\n"
                       "primitive p(o, i); output o; input i; table 0:1; endtable endprimitive\n"
                       "module full(input a); endmodule module half(input a); endmodule";
    Headers headers = {NULL, 0, false, false, 0};
    bool full = false, half = false;
    headers_read(&headers, text, strlen(text));
    assert_int_equal(headers.module_count, 3);
    for (size_t k = 0; k < headers.module[0].used_count; k++) {
        full = full || token_is(&headers.module[0].used[k], "full");
        half = half || token_is(&headers.module[0].used[k], "half");
    }
    assert_true(full && half);
    headers_free(&headers);
}

static void test_what_is_odd_is_said(void **state) {
    (void)state;
    Headers headers = {NULL, 0, false, false, 0};
    headers_read(&headers, "`ifdef X\nmodule m(input a);\n", 27);
    assert_true(headers.conditional);
    assert_true(headers.ends_early);
    headers_free(&headers);
    headers_read(&headers, "\n\001module", 8);
    assert_int_equal(headers.strange, 2);
    headers_free(&headers);
    headers_read(&headers, "The residual is observed minus predicted.", 41);
    assert_int_equal(headers.module_count, 0);
    headers_free(&headers);
}

/* Were it computed without a bound, this would take 2^30 steps. */
static void test_parameters_of_parameters_are_bounded(void **state) {
    (void)state;
    char text[2048];
    size_t used = (size_t)snprintf(text, sizeof text, "module m #(parameter P0 = 1");
    for (int k = 1; k <= 30; k++)
        used +=
            (size_t)snprintf(text + used, sizeof text - used, ", P%d = P%d - P%d", k, k - 1, k - 1);
    snprintf(text + used, sizeof text - used, ")(input [P30:0] a); endmodule");
    assert_ports(text, "in a ?");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_ansi_header),
        cmocka_unit_test(test_non_ansi_header),
        cmocka_unit_test(test_comments_and_attributes_are_passed_over),
        cmocka_unit_test(test_inputs_of_functions_and_tasks_are_no_ports),
        cmocka_unit_test(test_widths_are_computed_where_they_can_be),
        cmocka_unit_test(test_parameters_are_set_from_outside),
        cmocka_unit_test(test_escaped_names),
        cmocka_unit_test(test_used_modules),
        cmocka_unit_test(test_what_is_odd_is_said),
        cmocka_unit_test(test_parameters_of_parameters_are_bounded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
