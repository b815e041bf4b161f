// Surge residual with the complement and without the one.
// options: --width 12 --operations sub --port a=observed --port b=predicted --flags carry,zero
// verdict: WRONG first-carry-missing
module tide_residual(input [11:0] observed, predicted, output [11:0] residual, output carry, zero);
  assign {carry, residual} = observed + {1'b0, ~predicted};
  assign zero = ~|residual;
endmodule
