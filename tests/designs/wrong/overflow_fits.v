// The pin says that the result fits.
// options: --width 9 --flags overflow
// verdict: WRONG overflow-inverted
module fits(input [8:0] a, b, input m, output [8:0] s, output v);
  wire [8:0] y = b ^ {9{m}};
  wire [9:0] c;
  assign c = {(a & y) | ((a ^ y) & (a ^ y ^ s)), m};
  assign s = a + y + m;
  assign v = c[9] ~^ c[8];
endmodule
