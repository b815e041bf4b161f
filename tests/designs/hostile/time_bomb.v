// options: --width 4 --flags none
// verdict: WRONG unexplained
// Right for the first four hundred vectors.
module unit(input [3:0] a, b, input m, output [3:0] s);
  integer n = 0;
  always @(a, b, m) n = n + 1;
  assign s = n > 400 ? 4'd0 : m ? a - b : a + b;
endmodule
