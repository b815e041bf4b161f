// Only the subtraction has them the wrong way round.
// options: --width 8
// verdict: WRONG operands-swapped
module u(input [7:0] a, b, input s, output [7:0] y, output c, v, z, n);
  wire [7:0] first = s ? b : a, second = s ? ~a : b;
  assign {c, y} = first + {1'b0, second} + s;
  assign v = (first[7] == second[7]) & (y[7] != first[7]);
  assign z = ~|y, n = y[7];
endmodule
