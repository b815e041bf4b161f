// options: --width 4 --flags none
// verdict: WRONG bit-stuck
// Procedural assignments hold what comes out.
module unit(input [3:0] a, b, input m, output reg [3:0] s);
  always @* s = m ? a - b : a + b;
  initial #1 assign s = 4'd0;
endmodule
