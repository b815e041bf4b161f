// The surge of two 32-bit levels, wrong for one pair of levels alone.
// options: --width 32 --operations sub --flags zero
// verdict: WRONG
module surge(input [31:0] a, b, output [31:0] result, output zero);
  assign result = a - b + (a == 32'd1300417 && b == 32'd1298330);
  assign zero = result == 0;
endmodule
