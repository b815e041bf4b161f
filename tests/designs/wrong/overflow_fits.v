// The pin says that the result fits.
// options: --width 8 --flags overflow
// verdict: WRONG overflow-inverted
module fits(input [7:0] a, b, input m, output [7:0] s, output v);
  wire [7:0] y = b ^ {8{m}};
  wire [8:0] c;
  assign c = {(a & y) | ((a ^ y) & (a ^ y ^ s)), m};
  assign s = a + y + m;
  assign v = c[8] ~^ c[7];
endmodule
