// logger_alu: add, adc, sub and sbc on 16-bit words
//
//   add   a + b           where op is 00
//   adc   a + b + carry   where op is 01
//   sub   a - b           where op is 10
//   sbc   a - b - borrow  where op is 11
//
//   op             chooses the operation
//   cin            in adc: carry, 1 adds one more
//   cin            in sbc: no borrow, 0 subtracts one more
//   a              first operand, a
//   b              second operand, b
//   result         the exact result, modulo 2^16
//   carry          in addition: carry, the exact unsigned result is 2^16 or more
//   carry          in subtraction: no borrow, the exact unsigned result is not below 0
//   overflow       the exact signed result does not fit
//   zero           the result is 0
//   negative       the sign bit of the result
//   less_signed    the exact signed result is below 0
//   less_unsigned  the exact unsigned result is below 0
//   parity         an odd number of the bits of the result is 1
//   half_carry     what carry says, for the lowest four bits alone
//
//   Without registers: the outputs follow the inputs.
//
// Made by: sumwright emit --name logger_alu --width 16 --operations add,adc,sub,sbc --flags carry,overflow,zero,negative,less-signed,less-unsigned,parity,half-carry --detail operators --vectors 500

module logger_alu #(
    parameter WIDTH = 16
) (
    input  wire [1:0]       op,
    input  wire             cin,
    input  wire [WIDTH-1:0] a,
    input  wire [WIDTH-1:0] b,
    output wire [WIDTH-1:0] result,
    output wire             carry,
    output wire             overflow,
    output wire             zero,
    output wire             negative,
    output wire             less_signed,
    output wire             less_unsigned,
    output wire             parity,
    output wire             half_carry
);

  // Which operation op asks for.
  wire do_adc = op == 2'b01;
  wire do_sub = op == 2'b10;
  wire do_sbc = op == 2'b11;

  // What the operation asks of the operand row.
  wire invert_b = do_sub | do_sbc;
  wire use_cin = do_adc | do_sbc;

  // The operands as the adder sees them.
  wire [WIDTH-1:0] operand_b = b ^ {WIDTH{invert_b}};
  wire first_carry = do_sub | (use_cin & cin);

  // One bit more than the operands keeps the carry out of the last column.
  wire [WIDTH:0] total = {1'b0, a} + {1'b0, operand_b} + {{WIDTH{1'b0}}, first_carry};
  wire [WIDTH-1:0] sum = total[WIDTH-1:0];

  // A signed result does not fit when the operands' signs are equal and the sum's differs.
  wire overflows = (a[WIDTH-1] == operand_b[WIDTH-1]) && (sum[WIDTH-1] != a[WIDTH-1]);
  wire below_zero = sum[WIDTH-1] ^ overflows;  // the sign of the exact result

  assign result = sum;
  assign carry = total[WIDTH];
  assign overflow = overflows;
  assign zero = sum == {WIDTH{1'b0}};
  assign negative = sum[WIDTH-1];
  assign less_signed = below_zero;
  assign less_unsigned = invert_b & ~total[WIDTH];
  assign parity = ^sum;
  assign half_carry = (a[3] & operand_b[3]) | ((a[3] | operand_b[3]) & ~sum[3]);
endmodule
