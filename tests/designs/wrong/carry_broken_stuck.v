// A short to the supply in the chain of a gate-level adder.
// options: --width 16 --operations add,sub --flags carry,overflow,zero,negative
// verdict: WRONG carry-broken
module shorted(input [15:0] a, b, input sub, output [15:0] s, output co, v, z, n);
  wire [15:0] y = b ^ {16{sub}}, p = a ^ y, g = a & y;
  wire [16:0] c, into;
  assign into = {c[16:12], 1'b1, c[10:0]};
  assign c[0] = sub;
  genvar i;
  generate for (i = 0; i < 16; i = i + 1) begin : column
    wire g2;
    and (g2, p[i], into[i]);
    or (c[i+1], g[i], g2);
    xor (s[i], p[i], into[i]);
  end endgenerate
  assign co = into[16], v = into[16] ^ into[15], z = ~|s, n = s[15];
endmodule
