// Carry out and sign bit compared, in place of the two last carries.
// options: --width 6 --flags overflow,carry
// verdict: WRONG unexplained
module x(input [5:0] a, b, input m, output [5:0] s, output c, v);
  assign {c, s} = a + {1'b0, b ^ {6{m}}} + m;
  assign v = c ^ s[5];
endmodule
