// One flag is left out of the reset.
// options: --width 6 --registers output --flags overflow,negative
// verdict: WRONG unexplained
module kept(input clk, rst, input [5:0] a, b, input m, output reg [5:0] s, output reg v, n);
  wire [5:0] y = b ^ {6{m}}, t = a + y + m;
  always @(posedge clk) begin
    v <= a[5] == y[5] && t[5] != a[5];
    if (rst) begin s <= 6'd0; n <= 1'b0; end
    else begin s <= t; n <= t[5]; end
  end
endmodule
