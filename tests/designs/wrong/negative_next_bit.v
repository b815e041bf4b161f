// options: --width 8 --flags negative
// verdict: WRONG negative-wrong
module nb(input [7:0] a, b, input m, output [7:0] s, output n);
  assign s = m ? a - b : a + b;
  assign n = s[6];
endmodule
