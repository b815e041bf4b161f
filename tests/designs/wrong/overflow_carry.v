// options: --width 8
// verdict: WRONG overflow-repeats-carry
module a8(input [7:0] a, b, input m, output [7:0] s, output co, v, z, n);
  assign {co, s} = a + (b ^ {8{m}}) + m;
  assign v = co;
  assign z = ~|s, n = s[7];
endmodule
