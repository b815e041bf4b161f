// options: --width 4 --flags none
// verdict: WRONG
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign a = 4'd3, b = 4'd1;
  assign s = m ? a - b : a + b;
endmodule
