// Halves of halves: the upper half of each waits for the carry of the lower.
module halving #(
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
  reg [WIDTH-1:0] generates, passes;
  integer i, level, below;

  always @* begin
    for (i = 0; i < WIDTH; i = i + 1) begin
      sum[i] = add_bits(x[i], y[i], 1'b0, i);
      generates[i] = x[i] & y[i];
      passes[i] = x[i] ^ y[i];
    end
    generates[0] = generates[0] | (passes[0] & subtract);
    for (level = 0; 1 << level < WIDTH; level = level + 1)
      for (i = 0; i < WIDTH; i = i + 1)
        if ((i >> level) % 2 == 1) begin
          below = ((i >> level) << level) - 1;
          {generates[i], passes[i]} = join_groups({generates[i], passes[i]},
              {generates[below], passes[below]}, i, level);
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
