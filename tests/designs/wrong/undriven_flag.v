// The overflow flag was to be written later.
// options: --width 16
// verdict: WRONG undriven
module todo(input [15:0] a, b, input m, output [15:0] s, output co, v, z, n);
  assign {co, s} = a + (b ^ {16{m}}) + m;
  assign z = !s;
  assign n = s[15];
endmodule
