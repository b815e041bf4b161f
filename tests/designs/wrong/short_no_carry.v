// Ten of sixteen bits, and no carry out of the rest.
// options: --width 16
// verdict: WRONG width-short
module few(input [15:0] a, b, input m, output [15:0] s, output co, v, z, n);
  wire [9:0] t = a + (b ^ {16{m}}) + m;
  assign {co, s} = t;
  assign v = (a[15] == (b[15] ^ m)) && (s[15] != a[15]);
  assign z = ~|s, n = s[15];
endmodule
