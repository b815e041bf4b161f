// options: --width 16 --flags none
// verdict: WRONG control-reversed
module ternary16(input [15:0] op1, op2, input add, output [15:0] out);
  assign out = add ? op1 + op2 : op1 - op2;
endmodule
