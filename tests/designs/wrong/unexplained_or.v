// The carry is made with the wrong gate.
// options: --width 9 --operations add --flags none
// verdict: WRONG unexplained
module wrong_gate(input [8:0] a, b, output [8:0] s);
  wire [9:0] c;
  assign c[0] = 0;
  assign c[9:1] = (a | b) & (c[8:0] | a);
  assign s = a ^ b ^ c[8:0];
endmodule
