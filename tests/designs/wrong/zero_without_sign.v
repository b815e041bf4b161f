// options: --width 12 --operations sub --flags zero,negative
// verdict: WRONG zero-misses-bits
module zs(input [11:0] a, b, output [11:0] r, output zero, negative);
  assign r = a - b;
  assign zero = ~(r[0] | r[1] | r[2] | r[3] | r[4] | r[5] | r[6] | r[7] | r[8] | r[9] | r[10]);
  assign negative = r[11];
endmodule
