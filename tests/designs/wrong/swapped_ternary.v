// Only the subtraction has them the wrong way round.
// options: --width 9
// verdict: WRONG operands-swapped
module u(input [8:0] a, b, input s, output [8:0] y, output c, v, z, n);
  wire [8:0] first = s ? b : a, second = s ? ~a : b;
  assign {c, y} = first + {1'b0, second} + s;
  assign v = (first[8] == second[8]) & (y[8] != first[8]);
  assign z = ~|y, n = y[8];
endmodule
