// A generate loop over full adders in the same file; the width is a parameter.
// options: --width 16
// verdict: PASS
module full_adder(input a, b, ci, output s, co);
  assign s = a ^ b ^ ci;
  assign co = a & b | ci & (a ^ b);
endmodule

module ripple #(parameter N = 8) (
    input [N-1:0] in1, in2, input sub,
    output [N-1:0] out, output c_out, ovf, is_zero, sign);
  wire [N:0] c;
  assign c[0] = sub;
  genvar k;
  generate
    for (k = 0; k < N; k = k + 1) begin : bits
      full_adder fa(in1[k], in2[k] ^ sub, c[k], out[k], c[k+1]);
    end
  endgenerate
  assign c_out = c[N];
  assign ovf = c[N] ^ c[N-1];
  assign is_zero = ~|out;
  assign sign = out[N-1];
endmodule
