// Below zero by the unsigned reading.
// options: --width 12 --operations sub --flags carry,negative
// verdict: WRONG negative-wrong
module nc(input [11:0] a, b, output [11:0] d, output carry, negative);
  assign {carry, d} = a + {1'b0, ~b} + 1'b1;
  assign negative = ~carry;
endmodule
