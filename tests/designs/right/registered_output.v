// Outputs in flip-flops with a reset that its name calls low.
// options: --width 8 --registers output --flags carry,zero
// verdict: PASS
module gauge_register (
    input            clk,
    input            rst_n,
    input      [7:0] a, b,
    input            sub,
    output reg [7:0] q,
    output reg       carry,
    output           zero
);
  always @(posedge clk)
    if (!rst_n) {carry, q} <= 9'd0;
    else {carry, q} <= a + {1'b0, sub ? ~b : b} + sub;
  assign zero = q == 8'd0;
endmodule
