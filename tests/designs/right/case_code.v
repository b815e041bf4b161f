// A small unit of the logger's processor: a case statement over an operation code.
// options: --width 9 --operations add,sub,inc,dec,pass --flags zero,negative
// verdict: PASS
module logger_unit(input [8:0] opa, opb, input [2:0] opcode, output reg [8:0] y, output zf, nf);
  localparam ADD = 3'd0, SUB = 3'd1, INC = 3'd2, DEC = 3'd3, PASS = 3'd4;
  always @* case (opcode)
    ADD: y = opa + opb;
    SUB: y = opa - opb;
    INC: y = opa + 1'b1;
    DEC: y = opa - 1'b1;
    PASS: y = opa;
    default: y = 9'h00;
  endcase
  assign zf = y == 9'h00;
  assign nf = y[8];
endmodule
