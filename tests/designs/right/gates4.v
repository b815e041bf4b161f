// Four columns of gate primitives with delays, ports one a line.
// options: --width 4
// verdict: PASS
`timescale 1ns / 100ps
module gates4 (
    input  wire [3:0] A,
    input  wire [3:0] B,
    input  wire       M,
    output wire [3:0] S,
    output wire       Cout,
    output wire       V,
    output wire       Z,
    output wire       N
);
  wire [3:0] t, p, g, q;
  wire c1, c2, c3;
  xor #2 (t[0], B[0], M), (t[1], B[1], M), (t[2], B[2], M), (t[3], B[3], M);
  xor #2 (p[0], A[0], t[0]), (p[1], A[1], t[1]), (p[2], A[2], t[2]), (p[3], A[3], t[3]);
  and #1 (g[0], A[0], t[0]), (g[1], A[1], t[1]), (g[2], A[2], t[2]), (g[3], A[3], t[3]);
  and #1 (q[0], p[0], M), (q[1], p[1], c1), (q[2], p[2], c2), (q[3], p[3], c3);
  or #1 (c1, g[0], q[0]), (c2, g[1], q[1]), (c3, g[2], q[2]), (Cout, g[3], q[3]);
  xor #2 (S[0], p[0], M), (S[1], p[1], c1), (S[2], p[2], c2), (S[3], p[3], c3);
  xor #2 (V, Cout, c3);
  nor #1 (Z, S[0], S[1], S[2], S[3]);
  buf (N, S[3]);
endmodule
