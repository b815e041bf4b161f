// A clock behind a gate is a clock: what it lets through is right but for one level.
// options: --width 32 --operations sub --flags zero --registers output --reset none
// verdict: WRONG
module surge(input clk, input [31:0] a, b, output reg [31:0] result, output zero);
  wire gated = clk && a != 32'd1300417;
  always @(posedge gated) result <= a - b;
  assign zero = result == 0;
endmodule
