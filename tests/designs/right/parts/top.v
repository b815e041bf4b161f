// Three files that make one design.
// options: --width 8 --flags carry,overflow
// verdict: PASS
module top(input [7:0] a, b, input m, output [7:0] s, output co, v);
  wire [8:0] c;
  assign c[0] = m;
  column col[7:0] (a, b ^ {8{m}}, c[7:0], s, c[8:1]);
  assign co = c[8], v = c[8] ^ c[7];
endmodule
