// The result's range is written the other way round than it is filled.
// options: --width 9 --flags none
// verdict: WRONG bits-reversed
module rr(input [8:0] a, b, input m, output [8:0] s);
  wire [8:0] t = m ? a - b : a + b;
  genvar k;
  generate for (k = 0; k < 9; k = k + 1) begin : out
    assign s[k] = t[8-k];
  end endgenerate
endmodule
