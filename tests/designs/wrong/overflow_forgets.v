// options: --width 8
// verdict: WRONG overflow-forgets-subtraction
module fg(input [7:0] a, b, input m, output [7:0] s, output co, v, z, n);
  assign {co, s} = a + (b ^ {8{m}}) + m;
  assign v = (a[7] & b[7] & ~s[7]) | (~a[7] & ~b[7] & s[7]);
  assign z = ~|s, n = s[7];
endmodule
