// The reduction of a comparison of one bit: always 1.
// options: --width 16 --operations sub --flags zero,negative
// verdict: WRONG bit-stuck
module zf(input [15:0] a, b, output [15:0] d, output z, n);
  assign d = a - b;
  assign z = (d >= 0);
  assign n = d[15];
endmodule
