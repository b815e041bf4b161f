// options: --width 9 --flags carry
// verdict: WRONG carry-broken bit-stuck
module two4(input [8:0] a, b, input m, output [8:0] s, output co);
  wire [8:0] y = b ^ {9{m}};
  wire unused;
  wire [4:0] low = a[3:0] + y[3:0] + m;
  wire [5:0] high = a[8:4] + y[8:4];
  assign s = {high[4:0], low[3], 1'b1, low[1:0]}, co = high[5];
endmodule
