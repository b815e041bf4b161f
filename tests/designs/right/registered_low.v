// An asynchronous reset that is low, events with a comma.
// options: --width 6 --registers output --reset async --reset-level low --flags carry,zero
// verdict: PASS
module rg(clk, rst_n, a, b, sub, s, carry, zero);
  input clk, rst_n, sub; input [5:0] a, b; output [5:0] s; output carry, zero;
  reg [6:0] q;
  always @(posedge clk, negedge rst_n)
    if (~rst_n) q <= 7'b0;
    else q <= sub ? a + {1'b0, ~b} + 7'd1 : a + b;
  assign {carry, s} = q;
  assign zero = ~|s;
endmodule
