// Buses declared [0:5] and a loop that takes bit 0 for the least significant.
// options: --width 6 --flags carry
// verdict: WRONG bits-reversed
module x(input [0:5] a, b, input m, output [0:5] s, output co);
  wire [6:0] c;
  assign c[0] = m, co = c[6];
  genvar i;
  generate for (i = 0; i < 6; i = i + 1) begin : f
    assign s[i] = a[i] ^ b[i] ^ m ^ c[i];
    assign c[i+1] = (a[i] & (b[i] ^ m)) | (c[i] & (a[i] | (b[i] ^ m)));
  end endgenerate
endmodule
