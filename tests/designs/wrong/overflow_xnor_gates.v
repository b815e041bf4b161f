// An xnor for an xor.
// options: --width 4 --operations add --flags carry,overflow
// verdict: WRONG overflow-inverted
module xn(input [3:0] a, b, output [3:0] s, output c, v);
  wire [3:0] p, g;
  wire c1, c2, c3;
  xor xp[3:0] (p, a, b);
  and ag[3:0] (g, a, b);
  buf (c1, g[0]);
  assign c2 = g[1] | p[1] & c1, c3 = g[2] | p[2] & c2, c = g[3] | p[3] & c3;
  xor xs[3:0] (s, p, {c3, c2, c1, 1'b0});
  xnor (v, c, c3);
endmodule
