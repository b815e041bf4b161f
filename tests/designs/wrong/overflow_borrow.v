// The top bit of a sum and a difference that are one bit wider.
// options: --width 6 --flags overflow
// verdict: WRONG overflow-repeats-carry
module x(input signed [5:0] a, b, input m, output signed [5:0] s, output v);
  wire [6:0] t = m ? {1'b0,a} - {1'b0,b} : {1'b0,a} + {1'b0,b};
  assign s = t[5:0];
  assign v = t[6];
endmodule
