// The control pin goes nowhere but to the flags.
// options: --width 10
// verdict: WRONG operand-not-inverted
module surge(input [9:0] a, b, input sub, output [9:0] r, output c, v, z, n);
  assign {c, r} = a + b;
  assign v = sub ? (a[9] != b[9]) & (r[9] != a[9]) : (a[9] == b[9]) & (r[9] != a[9]);
  assign z = r == 0, n = r[9];
endmodule
