// The complement is extended with the sum, so the carry turns round, and the one is missing.
// options: --width 6 --flags carry
// verdict: WRONG first-carry-missing carry-sense-reversed
module x(input [5:0] a, b, input m, output [5:0] s, output co);
  assign {co, s} = m ? a + ~b : a + b;
endmodule
