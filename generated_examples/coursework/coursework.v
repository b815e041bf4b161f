// coursework: add and sub on 4-bit words
//
//   add   a + b           where subtract is 0
//   sub   a - b           where subtract is 1
//
//   subtract  chooses the operation
//   a         first operand, a
//   b         second operand, b
//   result    the exact result, modulo 2^4
//   carry     in addition: carry, the exact unsigned result is 2^4 or more
//   carry     in subtraction: no borrow, the exact unsigned result is not below 0
//   overflow  the exact signed result does not fit
//
//   Without registers: the outputs follow the inputs.
//
// Made by: sumwright emit --name coursework --width 4 --operations add,sub --flags carry,overflow --detail gates

module coursework (
    input  wire       subtract,
    input  wire [3:0] a,
    input  wire [3:0] b,
    output wire [3:0] result,
    output wire       carry,
    output wire       overflow
);

  // The operands as the adder sees them.
  wire operand_b_0 = b[0] ^ subtract;
  wire operand_b_1 = b[1] ^ subtract;
  wire operand_b_2 = b[2] ^ subtract;
  wire operand_b_3 = b[3] ^ subtract;

  // Column 0
  wire propagate_0 = a[0] ^ operand_b_0;
  assign result[0] = propagate_0 ^ subtract;
  wire generated_0 = a[0] & operand_b_0;
  wire passed_0 = propagate_0 & subtract;
  wire carry_1 = generated_0 | passed_0;

  // Column 1
  wire propagate_1 = a[1] ^ operand_b_1;
  assign result[1] = propagate_1 ^ carry_1;
  wire generated_1 = a[1] & operand_b_1;
  wire passed_1 = propagate_1 & carry_1;
  wire carry_2 = generated_1 | passed_1;

  // Column 2
  wire propagate_2 = a[2] ^ operand_b_2;
  assign result[2] = propagate_2 ^ carry_2;
  wire generated_2 = a[2] & operand_b_2;
  wire passed_2 = propagate_2 & carry_2;
  wire carry_3 = generated_2 | passed_2;

  // Column 3
  wire propagate_3 = a[3] ^ operand_b_3;
  assign result[3] = propagate_3 ^ carry_3;
  wire generated_3 = a[3] & operand_b_3;
  wire passed_3 = propagate_3 & carry_3;
  assign carry = generated_3 | passed_3;

  // The flags.
  assign overflow = carry ^ carry_3;
endmodule
