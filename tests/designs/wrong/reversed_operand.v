// The sensor's bus is [0:11], wired bit by bit.
// options: --width 12 --operations sub --flags carry,zero
// verdict: WRONG bits-reversed
module ro(input [11:0] a, b, output [11:0] r, output c, z);
  wire [0:11] turned = {b[0], b[1], b[2], b[3], b[4], b[5], b[6], b[7], b[8], b[9], b[10], b[11]};
  assign {c, r} = a + {1'b0, ~turned} + 1'b1;
  assign z = ~|r;
endmodule
