// Wrong from the millionth clock on.
// options: --width 32 --operations sub --flags zero --registers output --reset none
// verdict: UNPROVED its outputs: read as gates it differs, at least from some state
module surge(input clk, input [31:0] a, b, output reg [31:0] result, output zero);
  reg [19:0] clocks = 0;
  always @(posedge clk) begin
    clocks <= clocks + 1;
    result <= a - b + &clocks;
  end
  assign zero = result == 0;
endmodule
