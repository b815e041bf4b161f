// Predicted minus observed.
// options: --width 12 --operations sub --port a=observed --port b=predicted --flags negative
// verdict: WRONG operands-swapped
module residual(input [11:0] observed, predicted, output [11:0] residual, output negative);
  assign residual = predicted - observed;
  assign negative = residual[11];
endmodule
