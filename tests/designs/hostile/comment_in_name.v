// An escaped name that the preprocessor takes for the beginning of a comment.
// options: --width 4 --flags none
// verdict: UNTESTED
module unit(input [3:0] a, b, input subtract, output [3:0] \result/* );
  assign \result/* = a - b;
endmodule
// */
