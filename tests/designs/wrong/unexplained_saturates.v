// It stops at the greatest level where it should wrap.
// options: --width 8 --flags none
// verdict: WRONG unexplained
module stops(input [7:0] a, b, input m, output [7:0] s);
  wire [8:0] t = m ? {1'b0, a} - {1'b0, b} : a + b;
  assign s = t[8] ? {8{~m}} : t[7:0];
endmodule
