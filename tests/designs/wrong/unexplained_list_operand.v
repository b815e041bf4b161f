// One operand and the carry in are missing from the sensitivity list.
// options: --width 70 --operations adc,sbc --flags none
// verdict: WRONG unexplained
module list(input [69:0] a, b, input cin, m, output reg [69:0] s);
  always @(a or m) s = a + (b ^ {70{m}}) + cin;
endmodule
