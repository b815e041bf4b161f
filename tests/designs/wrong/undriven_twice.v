// Two drivers for one flag.
// options: --width 9 --operations sub --flags zero,negative
// verdict: WRONG undriven
module twice(input [8:0] a, b, output [8:0] r, output z, n);
  assign r = a - b;
  assign z = ~|r;
  assign n = r[8];
  assign n = (a < b);
endmodule
