// The pin in means a borrow, the pin out no borrow.
// options: --width 9 --operations adc,sbc --flags carry
// verdict: WRONG carry-sense-reversed
module slice(input [8:0] a, b, input cin, sel, output [8:0] r, output cout);
  assign {cout, r} = sel ? a + {1'b0, ~b} + !cin : a + b + cin;
endmodule
