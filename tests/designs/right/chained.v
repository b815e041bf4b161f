// Words that chain: adc and sbc, the borrow sense on both carry pins.
// options: --width 9 --operations adc,sbc --subtract-carry borrow --flags carry,zero
// verdict: PASS
module chained(input [8:0] a, b, input sel, cin, output [8:0] r, output cy, zero);
  assign {cy, r} = sel ? {1'b0, a} - {1'b0, b} - cin : {1'b0, a} + {1'b0, b} + cin;
  assign zero = r == 9'd0;
endmodule
