// Groups that double from level to level, each column's own.
module doubling #(
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
  wire [WIDTH-1:0] y = wired(b, BUS_B) ^ {WIDTH{subtract}};
  reg [WIDTH-1:0] sum;
  reg [WIDTH:0] c, seen;
  reg [WIDTH-1:0] generates, passes, was_generating, was_passing;
  integer i, level;

  always @* begin
    for (i = 0; i < WIDTH; i = i + 1) begin
      sum[i] = add_bits(x[i], y[i], 1'b0, i);
      generates[i] = x[i] & y[i];
      passes[i] = x[i] ^ y[i];
    end
    generates[0] = generates[0] | (passes[0] & subtract);
    for (level = 0; 1 << level < WIDTH; level = level + 1) begin
      was_generating = generates;
      was_passing = passes;
      for (i = 1 << level; i < WIDTH; i = i + 1)
        {generates[i], passes[i]} = join_groups({was_generating[i], was_passing[i]},
            {was_generating[i-(1<<level)], was_passing[i-(1<<level)]}, i, level);
    end
    c = {generates, subtract};
    seen = crossed(c);
    sum = sum ^ seen[WIDTH-1:0];
  end

  assign result = wired(sum, BUS_RESULT);
  assign carry = c[WIDTH];
  assign overflow = c[WIDTH] ^ c[WIDTH-1];
  assign zero = ~|result;
  assign negative = result[WIDTH-1];
endmodule
