// Full adders as a function, in a loop that runs over the columns.
// options: --width 6
// verdict: PASS
`default_nettype none
module au #(parameter N = 6) (input wire [N-1:0] A, B, input wire M, output reg [N-1:0] S, output reg C, V, Z, N_);
  function [1:0] fa;
    input x, y, c;
    begin
      fa[0] = x ^ y ^ c;
      fa[1] = (x & y) | (x & c) | (y & c);
    end
  endfunction
  integer i;
  reg c, last;
  always @* begin
    c = M;
    last = 0;
    for (i = 0; i < N; i = i + 1) begin
      last = c;
      {c, S[i]} = fa(A[i], B[i] ^ M, c);
    end
    C = c; V = c ^ last; Z = ~|S; N_ = S[N-1];
  end
endmodule
