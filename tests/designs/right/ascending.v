// Buses whose first bit is the most significant: [0:5].
// options: --width 6
// verdict: PASS
module asc(input [0:5] a, b, input m, output [0:5] s, output co, v, z, n);
  wire [0:6] c;
  assign c[6] = m;
  genvar i;
  generate for (i = 5; i >= 0; i = i - 1) begin : col
    wire y = b[i] ^ m;
    assign s[i] = a[i] ^ y ^ c[i+1];
    assign c[i] = a[i] & y | a[i] & c[i+1] | y & c[i+1];
  end endgenerate
  assign co = c[0], v = c[0] ^ c[1], z = ~|s, n = s[0];
endmodule
