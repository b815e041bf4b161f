// The carry between two groups is not wired on.
// options: --width 9 --flags carry
// verdict: WRONG carry-broken
module groups(input [8:0] a, b, input m, output [8:0] s, output co);
  wire [8:0] y = b ^ {9{m}};
  wire unused;
  assign {unused, s[3:0]} = a[3:0] + y[3:0] + m;
  assign {co, s[8:4]} = a[8:4] + y[8:4] + 1'b0;
endmodule
