// options: --width 4 --flags none
// verdict: UNTESTED '$fwrite'
`define OUT $fwrite
`define LATER(X) X(1, "0")
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  initial `LATER(`OUT);
endmodule
