// The reset goes nowhere.
// options: --width 6 --registers output --flags carry,zero
// verdict: WRONG unexplained
module x(input clk, rst, input [5:0] a, b, input m, output reg [5:0] s, output reg carry, output zero);
  always @(posedge clk) {carry, s} <= a + {1'b0, b ^ {6{m}}} + m;
  assign zero = s == 0;
endmodule
