// The complement is extended to ten bits, and with it comes a one: a borrow where no borrow was
// asked for.
// options: --width 9 --registers output --flags carry,zero
// verdict: WRONG carry-sense-reversed
module gauge_register(input clk, rst, input [8:0] a, b, input sub,
                      output reg [8:0] q, output reg carry, output zero);
  always @(posedge clk)
    if (rst) {carry, q} <= 10'd0;
    else {carry, q} <= a + (sub ? ~b : b) + sub;
  assign zero = q == 9'd0;
endmodule
