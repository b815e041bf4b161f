// options: --width 16
// verdict: WRONG negative-wrong
module np(input [15:0] a, b, input m, output [15:0] s, output co, v, z, n);
  wire [15:0] y = m ? ~b : b;
  assign {co, s} = a + y + m;
  assign v = ~(a[15] ^ y[15]) & (a[15] ^ s[15]), z = s == 0, n = ~s[15];
endmodule
