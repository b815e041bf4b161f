// Where it subtracts, one flag is given no value, and a latch keeps the one before.
// options: --width 5 --flags carry,overflow
// verdict: WRONG bit-stuck
module latch(input [4:0] a, b, input m, output reg [4:0] s, output reg carry, v);
  wire [4:0] y = b ^ {5{m}};
  always @* begin
    {carry, s} = a + {1'b0, y} + m;
    if (!m) v = a[4] == y[4] && s[4] != a[4];
  end
endmodule
