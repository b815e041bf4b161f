// A loop with its own variable, unnamed generate region.
// options: --width 6 --flags carry
// verdict: PASS
module g #(parameter int N = 6) (input logic [N-1:0] a, b, input logic sub, output logic [N-1:0] s, output logic carry);
  logic [N:0] c;
  assign c[0] = sub;
  for (genvar i = 0; i < N; i++) begin : col
    assign s[i] = a[i] ^ b[i] ^ sub ^ c[i];
    assign c[i+1] = (a[i] & (b[i] ^ sub)) | (c[i] & (a[i] | (b[i] ^ sub)));
  end
  assign carry = c[N];
endmodule
