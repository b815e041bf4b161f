// Not an adder at all.
// options: --width 12 --flags none
// verdict: WRONG unexplained
module mask(input [11:0] a, b, input m, output [11:0] s);
  assign s = m ? a & ~b : a | b;
endmodule
