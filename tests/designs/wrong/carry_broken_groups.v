// The carry between two groups of four is not wired on.
// options: --width 8 --flags carry
// verdict: WRONG carry-broken
module groups(input [7:0] a, b, input m, output [7:0] s, output co);
  wire [7:0] y = b ^ {8{m}};
  wire unused;
  assign {unused, s[3:0]} = a[3:0] + y[3:0] + m;
  assign {co, s[7:4]} = a[7:4] + y[7:4] + 1'b0;
endmodule
