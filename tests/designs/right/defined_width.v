// The width is a macro, the header hides behind a condition.
// options: --width 10 --operations add --flags carry
// verdict: PASS
`define LEVEL_BITS 10
`ifdef NARROW
module total(input [4:0] a, b, output [4:0] sum, output carry);
`else
module total(input [`LEVEL_BITS-1:0] a, b, output [`LEVEL_BITS-1:0] sum, output carry);
`endif
  assign {carry, sum} = a + b;
endmodule
