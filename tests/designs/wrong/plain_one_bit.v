// The control line is not repeated: one bit of b is inverted.
// options: --width 6 --flags carry
// verdict: WRONG operand-not-inverted
module w(input [5:0] a, b, input m, output [5:0] s, output c);
  assign {c, s} = a + (b ^ m) + m;
endmodule
