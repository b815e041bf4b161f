// options: --width 4 --flags none
// verdict: UNTESTED not done after
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  reg r;
  initial while (1) r = 0;
endmodule
