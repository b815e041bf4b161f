// The line is missing from the sensitivity list; the operands change with it at every vector.
// options: --width 8 --flags carry
// verdict: WRONG unexplained
module list(input [7:0] a, b, input m, output reg [7:0] s, output reg carry);
  always @(a or b) {carry, s} = a + {1'b0, b ^ {8{m}}} + m;
endmodule
