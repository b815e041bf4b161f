// The clock goes nowhere: right, and a clock early.
// options: --width 6 --flags carry --registers output --reset none
// verdict: WRONG late
module x(input clk, input [5:0] a, b, input m, output [5:0] s, output co);
  assign {co, s} = a + {1'b0, b ^ {6{m}}} + m;
endmodule
