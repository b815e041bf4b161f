// Two registers; two idle clocks between them let one level be lost.
// options: --width 32 --operations sub --flags zero --registers both --reset none --enable
// verdict: UNPROVED with the enable low between two clocks
module surge(input clk, en, input [31:0] a, b, output reg [31:0] result, output zero);
  reg [31:0] x, y;
  reg idle;
  always @(posedge clk) begin
    idle <= !en;
    if (en) begin
      x <= a;
      y <= b;
      result <= x - y + (idle && x == 32'd1300417);
    end
  end
  assign zero = result == 0;
endmodule
