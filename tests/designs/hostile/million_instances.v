// options: --width 4 --flags none
// verdict: UNTESTED more memory
// A thousand of a thousand of a thousand.
module leaf(input x, output y); assign y = ~x; endmodule
module level1(input x, output y); wire [999:0] w; leaf l[999:0](x, w); assign y = w[0]; endmodule
module level2(input x, output y); wire [999:0] w; level1 l[999:0](x, w); assign y = w[0]; endmodule
module level3(input x, output y); wire [999:0] w; level2 l[999:0](x, w); assign y = w[0]; endmodule
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  wire y;
  level3 l(m, y);
endmodule
