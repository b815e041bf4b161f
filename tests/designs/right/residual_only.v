// Surge residual, observed minus predicted level, and nothing else.
// options: --width 12 --operations sub --port a=observed --flags none
// verdict: PASS
module residual_only(input signed [11:0] observed, input signed [11:0] predicted,
                     output signed [11:0] residual);
  assign residual = observed - predicted;
endmodule
