// It takes the levels at the falling edge and shows the result at the rising one.
// options: --width 6 --registers output --flags none
// verdict: WRONG late
module x(input clk, rst, input [5:0] a, b, input m, output reg [5:0] s);
  reg [5:0] t;
  always @(negedge clk) if (rst) t <= 0; else t <= m ? a - b : a + b;
  always @(posedge clk) s <= t;
endmodule
