// Minus the wrong way round, and its borrow where no borrow was asked for.
// options: --width 6 --flags carry
// verdict: WRONG operands-swapped carry-sense-reversed
module x(input [5:0] a, b, input m, output [5:0] s, output co);
  assign {co, s} = m ? b - a : a + b;
endmodule
