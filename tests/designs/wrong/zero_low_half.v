// options: --width 9
// verdict: WRONG zero-misses-bits
module zl(input [8:0] a, b, input m, output [8:0] s, output co, v, z, n);
  wire [8:0] y = b ^ {9{m}};
  assign {co, s} = a + y + m;
  assign v = (a[8] == y[8]) & (s[8] != a[8]);
  assign z = s[3:0] == 4'b0;
  assign n = s[8];
endmodule
