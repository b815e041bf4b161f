// options: --width 10 --overflow saturate-signed --flags overflow,zero
// verdict: WRONG overflow-inverted
module clamp10(input signed [9:0] a, b, input s, output signed [9:0] y, output v, z);
  wire signed [10:0] w = s ? a - b : a + b;
  wire fits = w[10] == w[9];
  assign y = fits ? w[9:0] : {w[10], {9{~w[10]}}};
  assign v = fits;
  assign z = y == 0;
endmodule
