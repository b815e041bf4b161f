// Two drivers for one flag.
// options: --width 8 --operations sub --flags zero,negative
// verdict: WRONG undriven
module twice(input [7:0] a, b, output [7:0] r, output z, n);
  assign r = a - b;
  assign z = ~|r;
  assign n = r[7];
  assign n = (a < b);
endmodule
