// The chain begins with a constant.
// options: --width 16
// verdict: WRONG first-carry-missing
module chain(input [15:0] a, b, input sub, output [15:0] s, output co, v, z, n);
  wire [16:0] c;
  assign c[0] = 1'b0;
  genvar i;
  generate for (i = 0; i < 16; i = i + 1) begin : cols
    assign s[i] = a[i] ^ b[i] ^ sub ^ c[i];
    assign c[i+1] = (a[i] & (b[i] ^ sub)) | (c[i] & (a[i] ^ b[i] ^ sub));
  end endgenerate
  assign co = c[16], v = c[16] ^ c[15], z = s == 0, n = s[15];
endmodule
