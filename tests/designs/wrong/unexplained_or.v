// The carry is made with the wrong gate.
// options: --width 8 --operations add --flags none
// verdict: WRONG unexplained
module wrong_gate(input [7:0] a, b, output [7:0] s);
  wire [8:0] c;
  assign c[0] = 0;
  assign c[8:1] = (a | b) & (c[7:0] | a);
  assign s = a ^ b ^ c[7:0];
endmodule
