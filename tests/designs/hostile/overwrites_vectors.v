// options: --width 4 --flags none
// verdict: UNTESTED does not compile
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  integer k;
  initial for (k = 0; k < 512; k = k + 1) addsub4_tb.memory[k] = 0;
endmodule
