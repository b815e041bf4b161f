// level_sum: add and sub on 16-bit words
//
//   add   a + b           where subtract is 0
//   sub   a - b           where subtract is 1
//
//   subtract  chooses the operation
//   a         first operand, a
//   rise      second operand, b
//   result    the exact result, modulo 2^16
//   carry     in addition: carry, the exact unsigned result is 2^16 or more
//   carry     in subtraction: no borrow, the exact unsigned result is not below 0
//   overflow  the exact signed result does not fit
//
//   Without registers: the outputs follow the inputs.
//
// Made by: sumwright emit --name level_sum --width 16 --operations add,sub --flags carry,overflow --structure brent-kung --detail cells --port b=rise --vectors 200

module level_sum (
    input  wire        subtract,
    input  wire [15:0] a,
    input  wire [15:0] rise,
    output wire [15:0] result,
    output wire        carry,
    output wire        overflow
);

  // Each column by itself. What goes from column to column is a carry in an addition and a borrow
  // in a subtraction, so that nothing enters the lowest column. A column makes one where both of
  // its bits are 1, the one of a turned over in a subtraction, and passes one on where either is.
  wire [15:0] turned_a = a ^ {16{subtract}};
  wire [15:0] half_sum = a ^ rise;
  wire [15:0] generates = turned_a & rise;
  wire [15:1] passes = turned_a[15:1] | rise[15:1];

  // Structure brent-kung: prefix network up and down a tree: few cells, twice the depth
  // (Brent and Kung 1982).
  //
  // A cell joins two neighbouring spans of columns: together they generate what the upper one
  // generates, or passes on from the lower one. generates_7_4 is what columns 7 to 4 generate;
  // carry_or_borrow_8 is what enters column 8, which is what columns 7 to 0 generate.
  wire carry_or_borrow_1 = generates[0];

  // Level 1
  wire carry_or_borrow_2;
  level_sum_carry_cell level_1_column_1 (
      .generates(generates[1]), .passes(passes[1]),
      .carry_in(carry_or_borrow_1), .carry_out(carry_or_borrow_2)
  );
  wire generates_3_2, passes_3_2;
  level_sum_prefix_cell level_1_column_3 (
      .high_generates(generates[3]), .high_passes(passes[3]),
      .low_generates(generates[2]), .low_passes(passes[2]),
      .generates(generates_3_2), .passes(passes_3_2)
  );
  wire generates_5_4, passes_5_4;
  level_sum_prefix_cell level_1_column_5 (
      .high_generates(generates[5]), .high_passes(passes[5]),
      .low_generates(generates[4]), .low_passes(passes[4]),
      .generates(generates_5_4), .passes(passes_5_4)
  );
  wire generates_7_6, passes_7_6;
  level_sum_prefix_cell level_1_column_7 (
      .high_generates(generates[7]), .high_passes(passes[7]),
      .low_generates(generates[6]), .low_passes(passes[6]),
      .generates(generates_7_6), .passes(passes_7_6)
  );
  wire generates_9_8, passes_9_8;
  level_sum_prefix_cell level_1_column_9 (
      .high_generates(generates[9]), .high_passes(passes[9]),
      .low_generates(generates[8]), .low_passes(passes[8]),
      .generates(generates_9_8), .passes(passes_9_8)
  );
  wire generates_11_10, passes_11_10;
  level_sum_prefix_cell level_1_column_11 (
      .high_generates(generates[11]), .high_passes(passes[11]),
      .low_generates(generates[10]), .low_passes(passes[10]),
      .generates(generates_11_10), .passes(passes_11_10)
  );
  wire generates_13_12, passes_13_12;
  level_sum_prefix_cell level_1_column_13 (
      .high_generates(generates[13]), .high_passes(passes[13]),
      .low_generates(generates[12]), .low_passes(passes[12]),
      .generates(generates_13_12), .passes(passes_13_12)
  );
  wire generates_15_14, passes_15_14;
  level_sum_prefix_cell level_1_column_15 (
      .high_generates(generates[15]), .high_passes(passes[15]),
      .low_generates(generates[14]), .low_passes(passes[14]),
      .generates(generates_15_14), .passes(passes_15_14)
  );

  // Level 2
  wire carry_or_borrow_3;
  level_sum_carry_cell level_2_column_2 (
      .generates(generates[2]), .passes(passes[2]),
      .carry_in(carry_or_borrow_2), .carry_out(carry_or_borrow_3)
  );
  wire carry_or_borrow_4;
  level_sum_carry_cell level_2_column_3 (
      .generates(generates_3_2), .passes(passes_3_2),
      .carry_in(carry_or_borrow_2), .carry_out(carry_or_borrow_4)
  );
  wire generates_7_4, passes_7_4;
  level_sum_prefix_cell level_2_column_7 (
      .high_generates(generates_7_6), .high_passes(passes_7_6),
      .low_generates(generates_5_4), .low_passes(passes_5_4),
      .generates(generates_7_4), .passes(passes_7_4)
  );
  wire generates_11_8, passes_11_8;
  level_sum_prefix_cell level_2_column_11 (
      .high_generates(generates_11_10), .high_passes(passes_11_10),
      .low_generates(generates_9_8), .low_passes(passes_9_8),
      .generates(generates_11_8), .passes(passes_11_8)
  );
  wire generates_15_12, passes_15_12;
  level_sum_prefix_cell level_2_column_15 (
      .high_generates(generates_15_14), .high_passes(passes_15_14),
      .low_generates(generates_13_12), .low_passes(passes_13_12),
      .generates(generates_15_12), .passes(passes_15_12)
  );

  // Level 3
  wire carry_or_borrow_5;
  level_sum_carry_cell level_3_column_4 (
      .generates(generates[4]), .passes(passes[4]),
      .carry_in(carry_or_borrow_4), .carry_out(carry_or_borrow_5)
  );
  wire carry_or_borrow_6;
  level_sum_carry_cell level_3_column_5 (
      .generates(generates_5_4), .passes(passes_5_4),
      .carry_in(carry_or_borrow_4), .carry_out(carry_or_borrow_6)
  );
  wire carry_or_borrow_8;
  level_sum_carry_cell level_3_column_7 (
      .generates(generates_7_4), .passes(passes_7_4),
      .carry_in(carry_or_borrow_4), .carry_out(carry_or_borrow_8)
  );
  wire generates_15_8, passes_15_8;
  level_sum_prefix_cell level_3_column_15 (
      .high_generates(generates_15_12), .high_passes(passes_15_12),
      .low_generates(generates_11_8), .low_passes(passes_11_8),
      .generates(generates_15_8), .passes(passes_15_8)
  );

  // Level 4
  wire carry_or_borrow_7;
  level_sum_carry_cell level_4_column_6 (
      .generates(generates[6]), .passes(passes[6]),
      .carry_in(carry_or_borrow_6), .carry_out(carry_or_borrow_7)
  );
  wire carry_or_borrow_9;
  level_sum_carry_cell level_4_column_8 (
      .generates(generates[8]), .passes(passes[8]),
      .carry_in(carry_or_borrow_8), .carry_out(carry_or_borrow_9)
  );
  wire carry_or_borrow_10;
  level_sum_carry_cell level_4_column_9 (
      .generates(generates_9_8), .passes(passes_9_8),
      .carry_in(carry_or_borrow_8), .carry_out(carry_or_borrow_10)
  );
  wire carry_or_borrow_12;
  level_sum_carry_cell level_4_column_11 (
      .generates(generates_11_8), .passes(passes_11_8),
      .carry_in(carry_or_borrow_8), .carry_out(carry_or_borrow_12)
  );
  wire carry_or_borrow_16;
  level_sum_carry_cell level_4_column_15 (
      .generates(generates_15_8), .passes(passes_15_8),
      .carry_in(carry_or_borrow_8), .carry_out(carry_or_borrow_16)
  );

  // Level 5
  wire carry_or_borrow_11;
  level_sum_carry_cell level_5_column_10 (
      .generates(generates[10]), .passes(passes[10]),
      .carry_in(carry_or_borrow_10), .carry_out(carry_or_borrow_11)
  );
  wire carry_or_borrow_13;
  level_sum_carry_cell level_5_column_12 (
      .generates(generates[12]), .passes(passes[12]),
      .carry_in(carry_or_borrow_12), .carry_out(carry_or_borrow_13)
  );
  wire carry_or_borrow_14;
  level_sum_carry_cell level_5_column_13 (
      .generates(generates_13_12), .passes(passes_13_12),
      .carry_in(carry_or_borrow_12), .carry_out(carry_or_borrow_14)
  );

  // Level 6
  wire carry_or_borrow_15;
  level_sum_carry_cell level_6_column_14 (
      .generates(generates[14]), .passes(passes[14]),
      .carry_in(carry_or_borrow_14), .carry_out(carry_or_borrow_15)
  );

  // The sums.
  wire [15:0] sum;
  assign sum[0] = half_sum[0];
  assign sum[1] = half_sum[1] ^ carry_or_borrow_1;
  assign sum[2] = half_sum[2] ^ carry_or_borrow_2;
  assign sum[3] = half_sum[3] ^ carry_or_borrow_3;
  assign sum[4] = half_sum[4] ^ carry_or_borrow_4;
  assign sum[5] = half_sum[5] ^ carry_or_borrow_5;
  assign sum[6] = half_sum[6] ^ carry_or_borrow_6;
  assign sum[7] = half_sum[7] ^ carry_or_borrow_7;
  assign sum[8] = half_sum[8] ^ carry_or_borrow_8;
  assign sum[9] = half_sum[9] ^ carry_or_borrow_9;
  assign sum[10] = half_sum[10] ^ carry_or_borrow_10;
  assign sum[11] = half_sum[11] ^ carry_or_borrow_11;
  assign sum[12] = half_sum[12] ^ carry_or_borrow_12;
  assign sum[13] = half_sum[13] ^ carry_or_borrow_13;
  assign sum[14] = half_sum[14] ^ carry_or_borrow_14;
  assign sum[15] = half_sum[15] ^ carry_or_borrow_15;

  // A signed result fits when what enters the sign column equals what leaves it.
  wire overflows = carry_or_borrow_16 ^ carry_or_borrow_15;

  assign result = sum;
  assign carry = carry_or_borrow_16 ^ subtract;
  assign overflow = overflows;
endmodule

// The cells stand in the unit's file, so that it can be copied or handed in whole.
// verilator lint_off DECLFILENAME

// The carry out of a span of columns: one of its own, or the one that enters, passed on.
module level_sum_carry_cell (
    input  wire generates,
    input  wire passes,
    input  wire carry_in,
    output wire carry_out
);
  assign carry_out = generates | (passes & carry_in);
endmodule

// Joins two neighbouring spans of columns into one.
module level_sum_prefix_cell (
    input  wire high_generates,
    input  wire high_passes,
    input  wire low_generates,
    input  wire low_passes,
    output wire generates,
    output wire passes
);
  assign generates = high_generates | (high_passes & low_generates);
  assign passes    = high_passes & low_passes;
endmodule
// verilator lint_on DECLFILENAME
