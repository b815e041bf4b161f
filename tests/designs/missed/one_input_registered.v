// The same behind a register.
// options: --width 32 --operations sub --flags zero --registers output --reset sync
// verdict: WRONG
module surge(input clk, rst, input [31:0] a, b, output reg [31:0] result, output zero);
  always @(posedge clk)
    if (rst) result <= 0;
    else result <= a - b + (a == 32'd1300417 && b == 32'd1298330);
  assign zero = result == 0;
endmodule
