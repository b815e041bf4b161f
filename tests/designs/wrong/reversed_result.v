// The result's range is written the other way round than it is filled.
// options: --width 8 --flags none
// verdict: WRONG bits-reversed
module rr(input [7:0] a, b, input m, output [7:0] s);
  wire [7:0] t = m ? a - b : a + b;
  genvar k;
  generate for (k = 0; k < 8; k = k + 1) begin : out
    assign s[k] = t[7-k];
  end endgenerate
endmodule
