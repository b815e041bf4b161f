// The assignment is one bit short: the carry is never written.
// options: --width 12
// verdict: WRONG bit-stuck
module never(input [11:0] a, b, input m, output reg [11:0] s, output reg co, v, output z, n);
  reg [11:0] y;
  always @* begin
    y = m ? ~b : b;
    s = a + y + m;
    co = 1'b0;
    v = (a[11] == y[11]) && (s[11] != a[11]);
  end
  assign z = s == 0, n = s[11];
endmodule
