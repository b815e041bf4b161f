// options: --width 9
// verdict: WRONG overflow-forgets-subtraction
module fg(input [8:0] a, b, input m, output [8:0] s, output co, v, z, n);
  assign {co, s} = a + (b ^ {9{m}}) + m;
  assign v = (a[8] & b[8] & ~s[8]) | (~a[8] & ~b[8] & s[8]);
  assign z = ~|s, n = s[8];
endmodule
