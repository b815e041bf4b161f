// A row of full adders, each waiting for the one before it.
module ripple #(
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
  wire [WIDTH-1:0] sum;
  wire [WIDTH-1:0] cell_sum;
  wire [WIDTH:0] c;
  wire [WIDTH:0] seen = crossed(c);

  assign c[0] = subtract;
  genvar i;
  generate
    for (i = 0; i < WIDTH; i = i + 1) begin : column
      assign {c[i+1], cell_sum[i]} = add_bits(x[i], y[i], c[i], i);
      // The crossing is at the sums: a carry that fed its own column would never settle.
      assign sum[i] = cell_sum[i] ^ c[i] ^ seen[i];
    end
  endgenerate

  assign result = wired(sum, BUS_RESULT);
  assign carry = c[WIDTH];
  assign overflow = c[WIDTH] ^ c[WIDTH-1];
  assign zero = ~|result;
  assign negative = result[WIDTH-1];
endmodule
