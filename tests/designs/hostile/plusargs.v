// options: --width 4 --flags none
// verdict: UNTESTED '$test$plusargs'
// It asks how it is run.
module unit(input [3:0] a, b, input m, output [3:0] s);
  wire cheat = $test$plusargs("vectors");
  assign s = m ? a - b : a + b;
endmodule
