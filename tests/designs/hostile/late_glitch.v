// options: --width 4 --flags none
// verdict: WRONG
// Right for a moment only.
module unit(input [3:0] a, b, input m, output reg [3:0] s);
  always @* begin
    s = m ? a - b : a + b;
    s <= #3 4'd0;
  end
endmodule
