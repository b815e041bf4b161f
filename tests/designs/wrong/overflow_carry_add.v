// Addition alone, the flag from a sum that is one bit wider.
// options: --width 16 --operations add --flags overflow
// verdict: WRONG overflow-repeats-carry
module total(input [15:0] a, b, output [15:0] total, output overflow);
  wire [16:0] wide = a + b;
  assign total = wide[15:0];
  assign overflow = wide[16];
endmodule
