// One level of four-bit carry lookahead.
// options: --width 16 --flags carry
// verdict: PASS
module cla4(input [3:0] a, b, input c0, output [3:0] s, output c4);
  wire [3:0] g = a & b, p = a ^ b;
  wire c1 = g[0] | p[0] & c0;
  wire c2 = g[1] | p[1] & g[0] | p[1] & p[0] & c0;
  wire c3 = g[2] | p[2] & g[1] | p[2] & p[1] & g[0] | p[2] & p[1] & p[0] & c0;
  assign c4 = g[3] | p[3] & g[2] | p[3] & p[2] & g[1] | p[3] & p[2] & p[1] & g[0]
            | p[3] & p[2] & p[1] & p[0] & c0;
  assign s = p ^ {c3, c2, c1, c0};
endmodule
module cla16(input [15:0] a, b, input as, output [15:0] s, output cy);
  wire [15:0] bb = as ? ~b : b;
  wire c4, c8, c12;
  cla4 u0(a[3:0], bb[3:0], as, s[3:0], c4);
  cla4 u1(a[7:4], bb[7:4], c4, s[7:4], c8);
  cla4 u2(a[11:8], bb[11:8], c8, s[11:8], c12);
  cla4 u3(a[15:12], bb[15:12], c12, s[15:12], cy);
endmodule
