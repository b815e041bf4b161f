// A flag whose width is known to the compiler alone.
// options: --width 4 --flags zero
// verdict: WRONG pin-width
`define BITS (1 << 1)
module unit(input [3:0] a, b, input m, output [3:0] s, output [`BITS - 1:0] zero);
  assign s = m ? a - b : a + b;
  assign zero = s == 0;
endmodule
