// options: --width 4 --flags none
// verdict: UNTESTED it calls
// A task's name put together by a macro.
`define CALL(X) $X
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  initial `CALL(finish);
endmodule
