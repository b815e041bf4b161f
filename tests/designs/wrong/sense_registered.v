// The complement is extended to nine bits, and with it comes a one: a borrow where no borrow was
// asked for.
// options: --width 8 --registers output --flags carry,zero
// verdict: WRONG carry-sense-reversed
module gauge_register(input clk, rst, input [7:0] a, b, input sub,
                      output reg [7:0] q, output reg carry, output zero);
  always @(posedge clk)
    if (rst) {carry, q} <= 9'd0;
    else {carry, q} <= a + (sub ? ~b : b) + sub;
  assign zero = q == 8'd0;
endmodule
