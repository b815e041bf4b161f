// A flag that was asked for and is not there.
// options: --width 4 --flags carry,zero
// verdict: WRONG pin-missing
module unit(input [3:0] a, b, input m, output [3:0] s, output carry);
  assign {carry, s} = m ? {1'b0, a} + {1'b0, ~b} + 5'd1 : a + b;
endmodule
