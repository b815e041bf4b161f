// An adder, a subtractor that borrows, and a choice between their results.
module two_adders #(
    parameter WIDTH = 8,
    parameter KIND  = 0,
    parameter BUS   = 0,
    parameter AT    = 0,
    parameter OTHER = 0,
    parameter VALUE = 0
) (
    input  wire             subtract,
    input  wire [WIDTH-1:0] a,
    input  wire [WIDTH-1:0] b,
    output wire [WIDTH-1:0] result,
    output wire             carry,
    output wire             overflow,
    output wire             zero,
    output wire             negative
);
  `include "faults.vh"

  wire [WIDTH-1:0] x = wired(a, BUS_A);
  wire [WIDTH-1:0] y = wired(b, BUS_B);
  reg [WIDTH-1:0] total, difference;
  reg [WIDTH:0] c, carried, borrowed, seen;
  wire [WIDTH-1:0] sum = subtract ? difference : total;
  integer i;

  // Column AT is wrong in the adder, column AT - WIDTH in the subtractor.
  always @* begin
    carried = 0;
    borrowed = 0;
    for (i = 0; i < WIDTH; i = i + 1) begin
      {carried[i+1], total[i]} = add_bits(x[i], y[i], carried[i], i);
      // x - y - borrow: the borrow is that of a carry turned over.
      {borrowed[i+1], difference[i]} = add_bits(x[i], ~y[i], ~borrowed[i], i + WIDTH);
      borrowed[i+1] = ~borrowed[i+1];
    end
    c = subtract ? ~borrowed : carried;
    seen = crossed(c);
    if (subtract) difference = difference ^ c[WIDTH-1:0] ^ seen[WIDTH-1:0];
    else total = total ^ c[WIDTH-1:0] ^ seen[WIDTH-1:0];
  end

  assign result = wired(sum, BUS_RESULT);
  assign carry = c[WIDTH];
  assign overflow = c[WIDTH] ^ c[WIDTH-1];
  assign zero = ~|result;
  assign negative = result[WIDTH-1];
endmodule
