// options: --width 8
// verdict: WRONG first-carry-missing zero-misses-bits
module two1(input [7:0] a, b, input m, output [7:0] s, output co, v, z, n);
  wire [7:0] y = b ^ {8{m}};
  assign {co, s} = a + y;
  assign v = (a[7] == y[7]) & (s[7] != a[7]), z = ~|s[6:0], n = s[7];
endmodule
