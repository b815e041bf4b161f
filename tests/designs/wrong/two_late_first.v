// options: --width 9 --registers output --flags none
// verdict: WRONG first-carry-missing late
module two5(input clk, rst, input [8:0] a, b, input m, output reg [8:0] s);
  reg [8:0] t;
  always @(posedge clk)
    if (rst) begin t <= 0; s <= 0; end
    else begin t <= a + (b ^ {9{m}}); s <= t; end
endmodule
