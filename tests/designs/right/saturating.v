// A level that stops at the ends of the gauge's range.
// options: --width 8 --overflow saturate-signed --flags overflow,negative
// verdict: PASS
module clamp(input signed [7:0] a, b, input s, output signed [7:0] y, output ov, n);
  wire signed [8:0] wide = s ? a - b : a + b;
  assign ov = wide[8] != wide[7];
  assign y = ov ? (wide[8] ? 8'sh80 : 8'sh7f) : wide[7:0];
  assign n = y[7];
endmodule
