// An unsigned word is never below zero.
// options: --width 10 --flags negative
// verdict: WRONG bit-stuck
module below(input [9:0] a, b, input m, output [9:0] s, output n);
  assign s = m ? a - b : a + b;
  assign n = s < 0;
endmodule
