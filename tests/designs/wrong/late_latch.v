// A latch, open while the clock is high.
// options: --width 6 --registers output --flags none
// verdict: WRONG late
module x(input clk, rst, input [5:0] a, b, input m, output reg [5:0] s);
  always @* if (rst) s = 0; else if (clk) s = m ? a - b : a + b;
endmodule
