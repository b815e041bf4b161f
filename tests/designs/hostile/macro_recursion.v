// options: --width 4 --flags none
// verdict: UNTESTED it needs more memory
// Two macros that stand for one another.
`define X `Y
`define Y `X
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = `X;
endmodule
