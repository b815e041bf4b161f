// options: --width 16
// verdict: WRONG overflow-inverted negative-wrong
module two3(input [15:0] a, b, input m, output [15:0] s, output co, v, z, n);
  wire [15:0] y = b ^ {16{m}};
  assign {co, s} = a + y + m;
  assign v = ~((a[15] == y[15]) & (s[15] != a[15])), z = s == 0, n = s[14];
endmodule
