// options: --width 16 --operations add,sub,rsb --flags overflow,zero
// verdict: WRONG overflow-forgets-subtraction
module coded(input [15:0] x, y, input [1:0] op, output reg [15:0] r, output v, z);
  always @* begin
    r = 16'd0;
    if (op == 0) r = x + y;
    if (op == 1) r = x - y;
    if (op == 2) r = y - x;
  end
  assign v = op != 3 && x[15] ~^ y[15] && r[15] ^ x[15];
  assign z = r == 0;
endmodule
