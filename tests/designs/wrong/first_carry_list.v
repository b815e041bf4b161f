// The complement without the one, and the line missing from the sensitivity list.
// options: --width 6 --flags none
// verdict: WRONG first-carry-missing
module list(input [5:0] a, b, input m, output reg [5:0] s);
  always @(a or b) s = m ? a + ~b : a + b;
endmodule
