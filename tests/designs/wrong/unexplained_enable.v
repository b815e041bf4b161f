// The clock enable goes nowhere.
// options: --width 6 --registers output --flags carry,zero --enable
// verdict: WRONG unexplained
module x(input clk, rst, en, input [5:0] a, b, input m, output reg [5:0] s, output reg carry, output zero);
  always @(posedge clk) if (rst) {carry, s} <= 0; else {carry, s} <= a + {1'b0, b ^ {6{m}}} + m;
  assign zero = s == 0;
endmodule
