// options: --width 4 --flags none
// verdict: UNTESTED prints more than
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  initial repeat (1000000) $display("%01000d", 0);
endmodule
