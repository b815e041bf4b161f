// options: --width 8 --flags carry
// verdict: WRONG carry-broken bit-stuck
module two4(input [7:0] a, b, input m, output [7:0] s, output co);
  wire [7:0] y = b ^ {8{m}};
  wire unused;
  wire [4:0] low = a[3:0] + y[3:0] + m;
  wire [4:0] high = a[7:4] + y[7:4];
  assign s = {high[3:0], low[3], 1'b1, low[1:0]}, co = high[4];
endmodule
