// The reset waits for the clock enable.
// options: --width 6 --registers output --enable --flags carry
// verdict: WRONG unexplained
module waits(input clk, rst, en, input [5:0] a, b, input m, output reg [5:0] s, output reg carry);
  always @(posedge clk)
    if (en) begin
      if (rst) {carry, s} <= 7'd0;
      else {carry, s} <= a + {1'b0, b ^ {6{m}}} + m;
    end
endmodule
