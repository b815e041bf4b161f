// Ten bits, and the sign drawn out.
// options: --width 32 --flags none
// verdict: WRONG width-short
module drawn(input signed [31:0] a, b, input m, output signed [31:0] s);
  wire signed [9:0] t = m ? a - b : a + b;
  assign s = t;
endmodule
