// 32 bits, every flag, low control.
// options: --width 32 --control low --flags all --subtract-carry borrow
// verdict: PASS
module wide32(input [31:0] a, b, input subtract, output [31:0] result,
              output carry, overflow, zero, negative, less_signed, less_unsigned, parity, half_carry);
  wire down = ~subtract;
  wire [32:0] t = {1'b0, a} + {1'b0, b ^ {32{down}}} + down;
  wire [4:0] low = a[3:0] + (b[3:0] ^ {4{down}}) + down;
  assign result = t[31:0];
  assign carry = t[32] ^ down;
  assign half_carry = low[4] ^ down;
  assign overflow = down ? (a[31] ^ b[31]) & (a[31] ^ result[31])
                         : ~(a[31] ^ b[31]) & (a[31] ^ result[31]);
  assign zero = ~|result;
  assign negative = result[31];
  assign less_signed = negative ^ overflow;
  assign less_unsigned = down & carry;
  assign parity = ^result;
endmodule
