// A macro in an escaped name: the preprocessor expands it wherever the name is repeated, and a bench
// that repeats it tests the helper.
// options: --width 4 --flags none
// verdict: UNTESTED could be read as something else
`define M unit
module \`M (input [3:0] a, b, input subtract, output [3:0] result);
  wire [3:0] unused;
  helper right (a, b, subtract, unused);
  assign result = a & b;
endmodule
`undef M
`define M helper
module helper (input [3:0] a, b, input subtract, output [3:0] result);
  assign result = subtract ? a - b : a + b;
endmodule
