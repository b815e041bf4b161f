// options: --width 4 --flags none
// verdict: WRONG bit-stuck
// Macros with the names that a bench could use, other defaults, other keywords.
`timescale 1fs / 1fs
`default_nettype none
`define word given
`define seen given
`begin_keywords "1364-1995"
module unit(a, b, m, s);
  input [3:0] a, b;
  input m;
  output [3:0] s;
  wire [3:0] a, b, s;
  wire m;
  assign s = 0;
endmodule
