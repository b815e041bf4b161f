// One too few, by arithmetic.
// options: --width 6 --flags none
// verdict: WRONG first-carry-missing
module w(input [5:0] a, b, input m, output [5:0] s);
  assign s = m ? a - b - 1 : a + b;
endmodule
