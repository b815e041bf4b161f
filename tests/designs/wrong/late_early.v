// The input registers are missing.
// options: --width 8 --registers both --flags carry
// verdict: WRONG late
module no_inputs(input clk, rst, input [7:0] a, b, input m, output reg [7:0] s, output reg co);
  always @(posedge clk)
    if (rst) {co, s} <= 0;
    else {co, s} <= a + {1'b0, b ^ {8{m}}} + m;
endmodule
