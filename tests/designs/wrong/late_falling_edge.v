// It works at the falling edge of the clock.
// options: --width 6 --registers output --flags none
// verdict: WRONG late
module x(input clk, rst, input [5:0] a, b, input m, output reg [5:0] s);
  always @(negedge clk) if (rst) s <= 0; else s <= m ? a - b : a + b;
endmodule
