// It stops at the greatest level where it should wrap.
// options: --width 9 --flags none
// verdict: WRONG unexplained
module stops(input [8:0] a, b, input m, output [8:0] s);
  wire [9:0] t = m ? {1'b0, a} - {1'b0, b} : a + b;
  assign s = t[9] ? {9{~m}} : t[8:0];
endmodule
