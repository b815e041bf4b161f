// One flag does not wait for the enable.
// options: --width 6 --registers output --reset none --enable --flags overflow,negative
// verdict: WRONG unexplained
module goes_on(input clk, en, input [5:0] a, b, input m, output reg [5:0] s, output reg v, n);
  wire [5:0] y = b ^ {6{m}}, t = a + y + m;
  always @(posedge clk) begin
    v <= a[5] == y[5] && t[5] != a[5];
    if (en) begin s <= t; n <= t[5]; end
  end
endmodule
