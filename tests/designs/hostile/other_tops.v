// options: --width 4 --flags none --module unit
// verdict: PASS
// More top modules: only the bench is run.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
endmodule
module bench;
  initial begin $finish; end
endmodule
