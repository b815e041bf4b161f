// Subtraction alone is without the one; inc has its own.
// options: --width 6 --operations add,sub,inc,dec
// verdict: WRONG first-carry-missing
module x(input [5:0] a, b, input [1:0] op, output reg [5:0] r, output reg c, v, output z, n);
  reg [5:0] y; reg k;
  always @* begin
    case (op)
      0: begin y = b; k = 0; end
      1: begin y = ~b; k = 0; end
      2: begin y = 0; k = 1; end
      3: begin y = 6'h3f; k = 0; end
    endcase
    {c, r} = a + {1'b0, y} + k;
    v = a[5] == y[5] && r[5] != a[5];
  end
  assign z = r == 0, n = r[5];
endmodule
