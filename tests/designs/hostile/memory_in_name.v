// A memory that hides how large it is in its name.
// options: --width 4 --flags none
// verdict: UNTESTED it keeps memories
module unit(input [3:0] a, b, input subtract, output [3:0] result);
  reg [4095:0] \m",0,0, [0:4095];
  initial \m",0,0, [1] = 3;
  assign result = (subtract ? a - b : a + b) | {4{\m",0,0, [2][0] === 1'b0}};
endmodule
