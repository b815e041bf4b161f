// casez over an operation code; a carry pin in for half of the operations.
// options: --width 5 --operations add,sub,adc,sbc --flags carry,zero
// verdict: PASS
module x(input [4:0] A, B, input [1:0] SEL, input CIN, output reg [4:0] F, output reg COUT, output Z);
  wire ci = SEL[1] ? CIN : SEL[0];
  always @(A or B or SEL or ci)
    casez (SEL)
      2'b?0: {COUT, F} = A + B + ci;
      2'b?1: {COUT, F} = {1'b0, A} + {1'b0, ~B} + ci;
    endcase
  assign Z = F == 5'h0;
endmodule
