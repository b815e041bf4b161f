// The complemented operand is cut.
// options: --width 16 --operations sub --flags none
// verdict: WRONG width-short
module cut(input [15:0] a, b, output [15:0] d);
  wire [11:0] y = ~b;
  assign d = a + y + 1;
endmodule
