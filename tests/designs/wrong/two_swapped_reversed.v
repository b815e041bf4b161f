// options: --width 12 --operations sub --flags none
// verdict: WRONG operands-swapped bits-reversed
module two2(input [11:0] a, b, output [11:0] d);
  wire [0:11] t = b - a;
  genvar i;
  generate for (i = 0; i < 12; i = i + 1) begin : turn
    assign d[i] = t[i];
  end endgenerate
endmodule
