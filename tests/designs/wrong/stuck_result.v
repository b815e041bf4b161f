// A result bit is tied to ground.
// options: --width 8 --flags carry
// verdict: WRONG bit-stuck
module tied(input [7:0] a, b, input m, output [7:0] s, output co);
  wire [7:0] t;
  assign {co, t} = a + (b ^ {8{m}}) + m;
  assign s = {t[7:4], 1'b0, t[2:0]};
endmodule
