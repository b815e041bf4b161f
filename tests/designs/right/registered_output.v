// Outputs in flip-flops with a reset that its name calls low.
// options: --width 9 --registers output --flags carry,zero
// verdict: PASS
module gauge_register (
    input            clk,
    input            rst_n,
    input      [8:0] a, b,
    input            sub,
    output reg [8:0] q,
    output reg       carry,
    output           zero
);
  always @(posedge clk)
    if (!rst_n) {carry, q} <= 10'd0;
    else {carry, q} <= a + {1'b0, sub ? ~b : b} + sub;
  assign zero = q == 9'd0;
endmodule
