// A register more than was asked for.
// options: --width 9 --registers output --reset none --flags none
// verdict: WRONG late
module two_stages(input clk, input [8:0] a, b, input m, output reg [8:0] s);
  reg [8:0] t;
  always @(posedge clk) begin
    t <= m ? a - b : a + b;
    s <= t;
  end
endmodule
