// The op bus is turned over.
// options: --width 6 --operations add,sub,inc --flags none
// verdict: WRONG bits-reversed
module rc(input [5:0] a, b, input [1:0] op, output reg [5:0] y);
  always @* case ({op[0], op[1]})
    0: y = a + b;
    1: y = a - b;
    2: y = a + 1;
    default: y = 0;
  endcase
endmodule
