// A unit behind registers, in SystemVerilog.
// options: --width 8 --registers output --reset none --flags carry,zero
// verdict: PASS
module registered(input logic clk, input logic [7:0] a, b, input logic m, output logic [7:0] s, output logic carry, zero);
  always_ff @(posedge clk) {carry, s} <= a + {1'b0, b ^ {8{m}}} + m;
  assign zero = s == '0;
endmodule
