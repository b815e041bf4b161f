// The top bit is left out of a loop.
// options: --width 8 --flags none
// verdict: WRONG undriven
module loop(input [7:0] a, b, input m, output [7:0] s);
  wire [7:0] t = m ? a - b : a + b;
  genvar i;
  generate for (i = 0; i < 7; i = i + 1) begin : bits
    assign s[i] = t[i];
  end endgenerate
endmodule
