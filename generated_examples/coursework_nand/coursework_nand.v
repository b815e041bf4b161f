// coursework_nand: add and sub on 4-bit words
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
//   Made of 56 two-input NAND gates and nothing else; an inverter is one with both
//   inputs tied.
//
// Made by: sumwright emit --name coursework_nand --width 4 --operations add,sub --flags carry,overflow --detail nand

module coursework_nand (
    input  wire       subtract,
    input  wire [3:0] a,
    input  wire [3:0] b,
    output wire [3:0] result,
    output wire       carry,
    output wire       overflow
);

  // The operands as the adder sees them.
  wire operand_b_inner_0, operand_b_first_0, operand_b_second_0, operand_b_0, operand_b_inner_1,
       operand_b_first_1, operand_b_second_1, operand_b_1, operand_b_inner_2, operand_b_first_2,
       operand_b_second_2, operand_b_2, operand_b_inner_3, operand_b_first_3, operand_b_second_3,
       operand_b_3;
  nand (operand_b_inner_0, b[0], subtract);
  nand (operand_b_first_0, b[0], operand_b_inner_0);
  nand (operand_b_second_0, subtract, operand_b_inner_0);
  nand (operand_b_0, operand_b_first_0, operand_b_second_0);
  nand (operand_b_inner_1, b[1], subtract);
  nand (operand_b_first_1, b[1], operand_b_inner_1);
  nand (operand_b_second_1, subtract, operand_b_inner_1);
  nand (operand_b_1, operand_b_first_1, operand_b_second_1);
  nand (operand_b_inner_2, b[2], subtract);
  nand (operand_b_first_2, b[2], operand_b_inner_2);
  nand (operand_b_second_2, subtract, operand_b_inner_2);
  nand (operand_b_2, operand_b_first_2, operand_b_second_2);
  nand (operand_b_inner_3, b[3], subtract);
  nand (operand_b_first_3, b[3], operand_b_inner_3);
  nand (operand_b_second_3, subtract, operand_b_inner_3);
  nand (operand_b_3, operand_b_first_3, operand_b_second_3);

  // Column 0
  wire not_generated_0, propagate_first_0, propagate_second_0, propagate_0, not_passed_0,
       sum_first_0, sum_second_0, carry_1;
  nand (not_generated_0, a[0], operand_b_0);
  nand (propagate_first_0, a[0], not_generated_0);
  nand (propagate_second_0, operand_b_0, not_generated_0);
  nand (propagate_0, propagate_first_0, propagate_second_0);
  nand (not_passed_0, propagate_0, subtract);
  nand (sum_first_0, propagate_0, not_passed_0);
  nand (sum_second_0, subtract, not_passed_0);
  nand (result[0], sum_first_0, sum_second_0);
  nand (carry_1, not_generated_0, not_passed_0);

  // Column 1
  wire not_generated_1, propagate_first_1, propagate_second_1, propagate_1, not_passed_1,
       sum_first_1, sum_second_1, carry_2;
  nand (not_generated_1, a[1], operand_b_1);
  nand (propagate_first_1, a[1], not_generated_1);
  nand (propagate_second_1, operand_b_1, not_generated_1);
  nand (propagate_1, propagate_first_1, propagate_second_1);
  nand (not_passed_1, propagate_1, carry_1);
  nand (sum_first_1, propagate_1, not_passed_1);
  nand (sum_second_1, carry_1, not_passed_1);
  nand (result[1], sum_first_1, sum_second_1);
  nand (carry_2, not_generated_1, not_passed_1);

  // Column 2
  wire not_generated_2, propagate_first_2, propagate_second_2, propagate_2, not_passed_2,
       sum_first_2, sum_second_2, carry_3;
  nand (not_generated_2, a[2], operand_b_2);
  nand (propagate_first_2, a[2], not_generated_2);
  nand (propagate_second_2, operand_b_2, not_generated_2);
  nand (propagate_2, propagate_first_2, propagate_second_2);
  nand (not_passed_2, propagate_2, carry_2);
  nand (sum_first_2, propagate_2, not_passed_2);
  nand (sum_second_2, carry_2, not_passed_2);
  nand (result[2], sum_first_2, sum_second_2);
  nand (carry_3, not_generated_2, not_passed_2);

  // Column 3
  wire not_generated_3, propagate_first_3, propagate_second_3, propagate_3, not_passed_3,
       sum_first_3, sum_second_3;
  nand (not_generated_3, a[3], operand_b_3);
  nand (propagate_first_3, a[3], not_generated_3);
  nand (propagate_second_3, operand_b_3, not_generated_3);
  nand (propagate_3, propagate_first_3, propagate_second_3);
  nand (not_passed_3, propagate_3, carry_3);
  nand (sum_first_3, propagate_3, not_passed_3);
  nand (sum_second_3, carry_3, not_passed_3);
  nand (result[3], sum_first_3, sum_second_3);
  nand (carry, not_generated_3, not_passed_3);

  // The flags.
  wire overflows_inner, overflows_first, overflows_second;
  nand (overflows_inner, carry, carry_3);
  nand (overflows_first, carry, overflows_inner);
  nand (overflows_second, carry_3, overflows_inner);
  nand (overflow, overflows_first, overflows_second);
endmodule
