// options: --width 12 --flags none
// verdict: WRONG first-carry-missing width-short
module two6(input [11:0] a, b, input m, output [11:0] s);
  wire [7:0] t = a + (b ^ {12{m}});
  assign s = t;
endmodule
