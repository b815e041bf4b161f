// options: --width 4 --flags carry,overflow
// verdict: WRONG overflow-repeats-carry
module fa(input x, y, z, output s, c);
  wire p, g, t;
  xor (p, x, y), (s, p, z);
  and (g, x, y), (t, p, z);
  or (c, g, t);
endmodule
module r4(input [3:0] a, b, input k, output [3:0] s, output c, v);
  wire c1, c2, c3;
  fa f0(a[0], b[0] ^ k, k, s[0], c1), f1(a[1], b[1] ^ k, c1, s[1], c2),
     f2(a[2], b[2] ^ k, c2, s[2], c3), f3(a[3], b[3] ^ k, c3, s[3], c);
  buf (v, c);
endmodule
