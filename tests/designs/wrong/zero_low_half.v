// options: --width 8
// verdict: WRONG zero-misses-bits
module zl(input [7:0] a, b, input m, output [7:0] s, output co, v, z, n);
  wire [7:0] y = b ^ {8{m}};
  assign {co, s} = a + y + m;
  assign v = (a[7] == y[7]) & (s[7] != a[7]);
  assign z = s[3:0] == 4'b0;
  assign n = s[7];
endmodule
