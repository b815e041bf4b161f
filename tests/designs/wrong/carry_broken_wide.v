// Halves of a 32-bit word, never joined, in the subtraction alone.
// options: --width 32 --flags none
// verdict: WRONG carry-broken
module halves32(input [31:0] a, b, input m, output [31:0] s);
  wire [15:0] low = a[15:0] - b[15:0], high = a[31:16] - b[31:16];
  assign s = m ? {high, low} : a + b;
endmodule
