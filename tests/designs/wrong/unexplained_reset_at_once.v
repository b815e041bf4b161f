// A reset that does not wait for the clock, where one that waits was asked for.
// options: --width 6 --registers output --flags none
// verdict: WRONG unexplained
module x(input clk, rst, input [5:0] a, b, input m, output reg [5:0] s);
  always @(posedge clk or posedge rst) if (rst) s <= 0; else s <= m ? a - b : a + b;
endmodule
