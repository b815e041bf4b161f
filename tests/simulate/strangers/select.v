// Groups of five columns, added for either carry; the carry selects.
module select #(
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
  reg [WIDTH-1:0] sum, sum_0, sum_1;
  reg [WIDTH:0] c, c_0, c_1, seen;
  reg chosen;
  integer i;

  // Column AT is wrong where no carry is assumed, column AT - WIDTH where one is.
  always @* begin
    c = subtract;
    c_0 = 0;
    c_1 = ~0;
    chosen = subtract;
    for (i = 0; i < WIDTH; i = i + 1) begin
      if (i % 5 == 0) begin
        chosen = c[i];
        c_0[i] = 1'b0;
        c_1[i] = 1'b1;
      end
      {c_0[i+1], sum_0[i]} = add_bits(x[i], y[i], c_0[i], i);
      {c_1[i+1], sum_1[i]} = add_bits(x[i], y[i], c_1[i], i + WIDTH);
      sum[i] = chosen ? sum_1[i] : sum_0[i];
      c[i+1] = chosen ? c_1[i+1] : c_0[i+1];
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
