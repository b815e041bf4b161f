// A result bit is tied to ground.
// options: --width 9 --flags carry
// verdict: WRONG bit-stuck
module tied(input [8:0] a, b, input m, output [8:0] s, output co);
  wire [8:0] t;
  assign {co, t} = a + (b ^ {9{m}}) + m;
  assign s = {t[8:4], 1'b0, t[2:0]};
endmodule
