// All flags in one port: none of them is there.
// options: --width 4 --flags carry,zero
// verdict: WRONG pin-missing
module unit(input [3:0] a, b, input m, output [3:0] s, output [3:0] flags);
  wire c;
  assign {c, s} = m ? {1'b0, a} + {1'b0, ~b} + 5'd1 : a + b;
  assign flags = {c, s == 0, s[3], 1'b0};
endmodule
