// One pair of levels gives X.
// options: --width 32 --operations sub --flags zero
// verdict: WRONG undriven
module surge(input [31:0] a, b, output [31:0] result, output zero);
  assign result = a == 32'd1300417 && b == 32'd1298330 ? 32'bx : a - b;
  assign zero = result == 0;
endmodule
