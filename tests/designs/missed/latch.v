// One level is never taken: a latch keeps the result before.
// options: --width 32 --operations sub --flags zero
// verdict: WRONG
module surge(input [31:0] a, b, output reg [31:0] result, output zero);
  always @*
    if (a != 32'd1300417) result = a - b;
  assign zero = result == 0;
endmodule
