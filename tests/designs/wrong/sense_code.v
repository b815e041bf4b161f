// Minus signs in four operations: a borrow in each.
// options: --width 5 --operations add,sub,inc,dec,neg,pass --flags carry,zero
// verdict: WRONG carry-sense-reversed
module x(input [4:0] a, b, input [2:0] op, output reg [4:0] r, output reg c, output z);
  always @* case (op)
    0: {c, r} = a + b;
    1: {c, r} = a - b;
    2: {c, r} = a + 1;
    3: {c, r} = a - 1;
    4: {c, r} = -a;
    5: {c, r} = a;
    default: {c, r} = 0;
  endcase
  assign z = ~|r;
endmodule
