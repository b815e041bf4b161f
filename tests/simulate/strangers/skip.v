// Groups of four full adders; a carry skips a group that passes it on.
module skip #(
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
  reg start, passes;
  integer i;

  always @* begin
    c = subtract;
    start = subtract;
    passes = 1'b1;
    for (i = 0; i < WIDTH; i = i + 1) begin
      {c[i+1], sum[i]} = add_bits(x[i], y[i], c[i], i);
      passes = passes & (x[i] ^ y[i]);
      if (i % 4 == 3) begin
        if (passes) c[i+1] = start;
        start = c[i+1];
        passes = 1'b1;
      end
    end
    seen = crossed(c);
    sum = sum ^ c[WIDTH-1:0] ^ seen[WIDTH-1:0];
  end

  assign result = wired(sum, BUS_RESULT);
  assign carry = c[WIDTH];
  assign overflow = c[WIDTH] ^ c[WIDTH-1];
  assign zero = ~|result;
  assign negative = result[WIDTH-1];
endmodule
