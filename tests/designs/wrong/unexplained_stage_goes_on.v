// The registers before the adder do not wait for the enable, those behind it do.
// options: --width 6 --registers both --reset none --enable --flags none
// verdict: WRONG unexplained
module stage(input clk, en, input [5:0] a, b, input m, output reg [5:0] s);
  reg [5:0] x, y;
  reg k;
  always @(posedge clk) {x, y, k} <= {a, b, m};
  always @(posedge clk) if (en) s <= k ? x - y : x + y;
endmodule
