// The top bit is left out of a loop.
// options: --width 9 --flags none
// verdict: WRONG undriven
module loop(input [8:0] a, b, input m, output [8:0] s);
  wire [8:0] t = m ? a - b : a + b;
  genvar i;
  generate for (i = 0; i < 8; i = i + 1) begin : bits
    assign s[i] = t[i];
  end endgenerate
endmodule
