// Three clocks behind what --latency says.
// options: --width 12 --operations sub --latency 1 --flags zero
// verdict: WRONG late
module behind(input ck, input [11:0] a, b, output [11:0] d, output z);
  reg [11:0] q [0:3];
  always @(posedge ck) begin
    q[0] <= a - b;
    q[1] <= q[0];
    q[2] <= q[1];
    q[3] <= q[2];
  end
  assign d = q[3], z = d == 0;
endmodule
