// The carry, in the top bit of a port of its own width.
// options: --width 4 --flags carry
// verdict: WRONG pin-width
module unit(input [3:0] a, b, input m, output [3:0] s, output [4:0] cout);
  assign cout = m ? a + ~{1'b1, b} + 5'd1 : a + b;
  assign s = cout[3:0];
endmodule
