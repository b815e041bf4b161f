// It takes the levels at the rising edge and shows the result at the falling one.
// options: --width 6 --registers output --flags none
// verdict: WRONG unexplained
module x(input clk, rst, input [5:0] a, b, input m, output reg [5:0] s);
  reg [5:0] t;
  always @(posedge clk) if (rst) t <= 0; else t <= m ? a - b : a + b;
  always @(negedge clk) s <= t;
endmodule
