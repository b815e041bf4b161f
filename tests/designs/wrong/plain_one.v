// The row of XOR gates is not there; the one is.
// options: --width 8 --flags carry
// verdict: WRONG operand-not-inverted
module sum8(input [7:0] x, y, input m, output [7:0] s, output co);
  assign {co, s} = x + y + m;
endmodule
