// Nobody drives the carry into column 0.
// options: --width 6
// verdict: WRONG undriven
module x(input [5:0] a, input [5:0] b, input m, output [5:0] s, output co, v, z, n);
  wire [6:0] c;
  assign co = c[6], v = c[6] ^ c[5], z = ~|s, n = s[5];
  genvar i;
  generate for (i = 0; i < 6; i = i + 1) begin : f
    assign s[i] = a[i] ^ b[i] ^ m ^ c[i];
    assign c[i+1] = (a[i] & (b[i] ^ m)) | (c[i] & (a[i] | (b[i] ^ m)));
  end endgenerate
endmodule
