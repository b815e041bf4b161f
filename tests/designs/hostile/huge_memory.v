// options: --width 4 --flags none
// verdict: UNTESTED
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  reg [1023:0] level [0:1073741823];
  initial level[0] = 0;
endmodule
