// Asked for a borrow, it shows the adder's own carry.
// options: --width 32 --subtract-carry borrow --flags carry,half-carry
// verdict: WRONG carry-sense-reversed
module wide(input [31:0] a, b, input m, output [31:0] s, output co, hc);
  wire [31:0] y = b ^ {32{m}};
  wire [4:0] low = a[3:0] + y[3:0] + m;
  assign {co, s} = a + y + m;
  assign hc = low[4];
endmodule
