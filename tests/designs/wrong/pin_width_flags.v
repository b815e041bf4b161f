// Flags of four bits, stuck at 0: another width is not absent.
// options: --width 4
// verdict: WRONG pin-width
module unit(input [3:0] a, b, input m, output [3:0] s, carry, zero);
  assign s = m ? a - b : a + b;
  assign carry = 4'b0;
  assign zero = 4'b0;
endmodule
