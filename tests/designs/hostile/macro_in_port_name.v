// A macro in the escaped name of a port: what it is called depends on where it stands.
// options: --width 4 --flags none
// verdict: UNTESTED could be read as something else
`define S sum
module unit (input [3:0] a, b, input subtract, output [3:0] \`S );
  assign \`S = subtract ? a - b : a + b;
endmodule
