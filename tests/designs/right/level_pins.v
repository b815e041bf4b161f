// A macro made of a macro for the range; pins called level_a and level_b.
// options: --width 10 --operations sub --flags none
// verdict: PASS
`timescale 1ns/1ps
`define WIDTH 10
`define MSB (`WIDTH-1)
module surge (
  input  wire [`MSB:0] level_a,
  input  wire [`MSB:0] level_b,
  output wire [`MSB:0] surge
);
  assign surge = level_a - level_b;
endmodule
