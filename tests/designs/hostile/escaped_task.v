// options: --width 4 --flags none
// verdict: UNTESTED '$finish'
// An escaped name is a system task all the same.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  initial \$finish ;
endmodule
