// Three clocks from the levels to the surge, no reset.
// options: --width 8 --operations sub --latency 3 --flags none
// verdict: PASS
module deep(input ck, input [7:0] a, b, output reg [7:0] d);
  reg [7:0] first, second;
  always @(posedge ck) begin
    first <= a - b;
    second <= first;
    d <= second;
  end
endmodule
