// tide_residual: sub on 12-bit words
//
//   sub   a - b
//
//   observed   first operand, a
//   predicted  second operand, b
//   residual   the exact result, modulo 2^12
//   carry      in subtraction: no borrow, the exact unsigned result is not below 0
//   overflow   the exact signed result does not fit
//   zero       the result is 0
//   negative   the sign bit of the result
//
//   Without registers: the outputs follow the inputs.
//
// Made by: sumwright emit --name tide_residual --width 12 --operations sub --port a=observed --port b=predicted --port result=residual

module tide_residual #(
    parameter WIDTH = 12
) (
    input  wire [WIDTH-1:0] observed,
    input  wire [WIDTH-1:0] predicted,
    output wire [WIDTH-1:0] residual,
    output wire             carry,
    output wire             overflow,
    output wire             zero,
    output wire             negative
);

  // The operands as the adder sees them.
  wire [WIDTH-1:0] operand_b = ~predicted;

  wire [WIDTH-1:0] sum;

  // Each column passes its carry to the next.
  genvar i;
  generate
    for (i = 0; i < WIDTH; i = i + 1) begin : column
      wire carry_in;
      wire carry_out;

      if (i == 0) begin : first_column
        assign carry_in = 1'b1;
      end else begin : later_column
        assign carry_in = column[i-1].carry_out;
      end

      tide_residual_full_adder adder (
          .a   (observed[i]),
          .b   (operand_b[i]),
          .cin (carry_in),
          .sum (sum[i]),
          .cout(carry_out)
      );
    end
  endgenerate

  // A signed result fits when the carry into the sign column equals the carry out of it.
  wire overflows = column[WIDTH-1].carry_out ^ column[WIDTH-1].carry_in;

  assign residual = sum;
  assign carry = column[WIDTH-1].carry_out;
  assign overflow = overflows;
  assign zero = sum == {WIDTH{1'b0}};
  assign negative = sum[WIDTH-1];
endmodule

// The cells stand in the unit's file, so that it can be copied or handed in whole.
// verilator lint_off DECLFILENAME

// Adds three bits: sum has their parity, cout is 1 where two or three of them are 1.
module tide_residual_full_adder (
    input  wire a,
    input  wire b,
    input  wire cin,
    output wire sum,
    output wire cout
);
  wire propagate = a ^ b;

  assign sum  = propagate ^ cin;
  assign cout = (a & b) | (propagate & cin);
endmodule
// verilator lint_on DECLFILENAME
