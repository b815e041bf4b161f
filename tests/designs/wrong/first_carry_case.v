// One of several operations forgets it.
// options: --width 9 --operations add,sub,rsb,neg --flags zero
// verdict: WRONG first-carry-missing
module unit(input [8:0] a, b, input [1:0] op, output reg [8:0] y, output z);
  always @(*) case (op)
    2'b00: y = a + b;
    2'b01: y = a - b;
    2'b10: y = b + ~a;
    2'b11: y = ~a + 9'd1;
  endcase
  assign z = y == 0;
endmodule
