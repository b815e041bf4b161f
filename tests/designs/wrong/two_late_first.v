// options: --width 8 --registers output --flags none
// verdict: WRONG first-carry-missing late
module two5(input clk, rst, input [7:0] a, b, input m, output reg [7:0] s);
  reg [7:0] t;
  always @(posedge clk)
    if (rst) begin t <= 0; s <= 0; end
    else begin t <= a + (b ^ {8{m}}); s <= t; end
endmodule
