// Three clocks from the levels to the surge, no reset.
// options: --width 9 --operations sub --latency 3 --flags none
// verdict: PASS
module deep(input ck, input [8:0] a, b, output reg [8:0] d);
  reg [8:0] first, second;
  always @(posedge ck) begin
    first <= a - b;
    second <= first;
    d <= second;
  end
endmodule
