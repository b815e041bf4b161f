// A residual with the rule of the sum.
// options: --width 12 --operations sub --flags overflow
// verdict: WRONG overflow-forgets-subtraction
module res(input signed [11:0] a, b, output signed [11:0] d, output ovf);
  assign d = a - b;
  assign ovf = (a[11] == b[11]) && (d[11] != a[11]);
endmodule
