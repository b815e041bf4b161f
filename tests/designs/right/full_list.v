// Every input in the sensitivity list, as one wrote it before @*.
// options: --width 6 --operations add,sub,inc,dec --control one-hot --flags carry
// verdict: PASS
module full_list(input do_add, do_sub, do_inc, do_dec, input [5:0] a, b, output reg [5:0] s, output reg carry);
  always @(do_add or do_sub or do_inc or do_dec or a or b)
    case ({do_add, do_sub, do_inc, do_dec})
      4'b1000: {carry, s} = a + b;
      4'b0100: {carry, s} = a + {1'b0, ~b} + 1;
      4'b0010: {carry, s} = a + 1;
      4'b0001: {carry, s} = a + {1'b0, 6'b111111};
      default: {carry, s} = 0;
    endcase
endmodule
