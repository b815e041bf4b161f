// A logical not for the bitwise one.
// options: --width 6 --flags none
// verdict: WRONG operand-not-inverted
module w(input [5:0] a, b, input m, output [5:0] s);
  assign s = m ? a + !b + 1 : a + b;
endmodule
