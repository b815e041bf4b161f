// One level passes a reset.
// options: --width 32 --operations sub --flags zero --registers output --reset sync
// verdict: UNPROVED in reset: read as gates it differs
module surge(input clk, rst, input [31:0] a, b, output reg [31:0] result, output zero);
  always @(posedge clk)
    if (rst && a != 32'd1300417) result <= 0;
    else result <= a - b;
  assign zero = result == 0;
endmodule
