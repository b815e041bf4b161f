// Gates; the multiplexer chooses b in both cases.
// options: --width 5 --flags carry,overflow
// verdict: WRONG operand-not-inverted
module addsub5(a, b, k, s, co, v);
  input [4:0] a, b;
  input k;
  output [4:0] s;
  output co, v;
  wire [4:0] nb, y, p, g, t;
  wire [5:0] c;
  not inv[4:0] (nb, b);
  assign y = k ? b : b;
  buf (c[0], k);
  xor x1[4:0] (p, a, y);
  and a1[4:0] (g, a, y);
  and a2[4:0] (t, p, c[4:0]);
  or o1[4:0] (c[5:1], g, t);
  xor x2[4:0] (s, p, c[4:0]);
  buf (co, c[5]);
  xor (v, c[5], c[4]);
endmodule
