// Column 2 is given the carry of column 0, c1, for its own, c2.
// options: --width 4 --flags carry
// verdict: WRONG
module x(input [3:0] a, b, input m, output [3:0] s, output c);
  wire [3:0] y = b ^ {4{m}}; wire c1, c2, c3;
  fa f0(a[0], y[0], m, s[0], c1), f1(a[1], y[1], c1, s[1], c2), f2(a[2], y[2], c1, s[2], c3), f3(a[3], y[3], c3, s[3], c);
endmodule
module fa(input a, b, ci, output s, co); assign {co, s} = a + b + ci; endmodule
