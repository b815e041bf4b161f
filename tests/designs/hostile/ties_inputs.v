// options: --width 4 --flags none
// verdict: WRONG undriven
// Writes back into its inputs through an alias of nets.
module tie(inout [3:0] x, y); assign x = y; endmodule
module unit(input [3:0] a, b, input m, output [3:0] s);
  tie t(a, b);
  tran t0(b[0], m);
  assign s = m ? a - b : a + b;
endmodule
