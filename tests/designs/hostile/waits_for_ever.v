// options: --width 4 --flags none
// verdict: PASS
// Processes that wait for ever hold nobody up.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  initial wait (0) $display("never");
  initial forever @(posedge s[3]) ;
endmodule
