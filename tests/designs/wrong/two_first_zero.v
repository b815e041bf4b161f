// options: --width 9
// verdict: WRONG first-carry-missing zero-misses-bits
module two1(input [8:0] a, b, input m, output [8:0] s, output co, v, z, n);
  wire [8:0] y = b ^ {9{m}};
  assign {co, s} = a + y;
  assign v = (a[8] == y[8]) & (s[8] != a[8]), z = ~|s[7:0], n = s[8];
endmodule
