// options: --width 4 --flags none
// verdict: UNTESTED '$writememb'
// The bench calls this task, too.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  reg [7:0] level [0:3];
  initial $writememb("seen", level);
endmodule
