// Bits counted from 1, and from 4.
// options: --width 6 --flags carry,zero
// verdict: PASS
module off(input [6:1] a, b, input m, output [9:4] s, output c, z);
  assign {c, s} = {1'b0, a} + {1'b0, b ^ {6{m}}} + m;
  assign z = s == 0;
endmodule
