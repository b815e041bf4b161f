// With the enable low, one level passes all the same.
// options: --width 32 --operations sub --flags zero --registers output --reset sync --enable
// verdict: UNPROVED with the enable low: read as gates it differs
module surge(input clk, rst, en, input [31:0] a, b, output reg [31:0] result, output zero);
  always @(posedge clk)
    if (rst) result <= 0;
    else if (en || a == 32'd1300417) result <= a - b;
  assign zero = result == 0;
endmodule
