// The row of XOR gates is not there; the one is.
// options: --width 9 --flags carry
// verdict: WRONG operand-not-inverted
module sum9(input [8:0] x, y, input m, output [8:0] s, output co);
  assign {co, s} = x + y + m;
endmodule
