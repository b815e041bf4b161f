// options: --width 4 --flags none
// verdict: UNTESTED '$fdisplay'
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  initial $fdisplay(32'h80000003, "0");
endmodule
