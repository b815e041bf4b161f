// With a borrow in and out.
// options: --width 6 --operations adc,sbc --subtract-carry borrow --flags carry,overflow
// verdict: WRONG operands-swapped
module words(input [5:0] a, b, input sel, bin, output [5:0] d, output bout, v);
  wire [6:0] sum = a + b + bin, dif = {1'b0, b} - {1'b0, a} - bin;
  assign {bout, d} = sel ? dif : sum;
  assign v = sel ? (a[5] ^ b[5]) & (b[5] ^ d[5]) : ~(a[5] ^ b[5]) & (a[5] ^ d[5]);
endmodule
