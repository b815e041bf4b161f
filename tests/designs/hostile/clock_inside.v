// options: --width 4 --flags none
// verdict: UNTESTED not done after
`timescale 1ns / 1fs
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  reg c = 0;
  always #0.000001 c = ~c;
endmodule
