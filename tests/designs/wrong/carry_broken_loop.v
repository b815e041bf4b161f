// A line left over from the search for another fault.
// options: --width 6 --flags carry
// verdict: WRONG carry-broken
module x(input [5:0] a, b, input m, output [5:0] s, output co);
  reg [6:0] c; reg [5:0] y; reg [5:0] s;
  integer i;
  always @* begin
    y = b ^ {6{m}};
    c[0] = m;
    for (i = 0; i < 6; i = i + 1) begin
      s[i] = a[i] ^ y[i] ^ c[i];
      c[i+1] = a[i] & y[i] | a[i] & c[i] | y[i] & c[i];
      if (i == 1) c[2] = 1'b1;
    end
  end
  assign co = c[6];
endmodule
