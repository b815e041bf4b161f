// A wrong tide residual, for docs/marking.md: the complement is there and the one is not.
module tide_residual(input [11:0] observed, predicted, output [11:0] residual, output carry, zero);
  assign {carry, residual} = observed + {1'b0, ~predicted};
  assign zero = ~|residual;
endmodule
