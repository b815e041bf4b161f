// The carries have numbers, the last one is the carry out.
// options: --width 4 --operations add --flags carry
// verdict: PASS
module rca(input [3:0] A, input [3:0] B, output [3:0] S, output C4);
  wire [3:0] g = A & B, p = A ^ B;
  wire c1, c2, c3;
  assign c1 = g[0];
  assign c2 = g[1] | (p[1] & c1);
  assign c3 = g[2] | (p[2] & c2);
  assign C4 = g[3] | (p[3] & c3);
  assign S = {p[3] ^ c3, p[2] ^ c2, p[1] ^ c1, p[0]};
endmodule
