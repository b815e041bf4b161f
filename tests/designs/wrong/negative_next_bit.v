// options: --width 9 --flags negative
// verdict: WRONG negative-wrong
module nb(input [8:0] a, b, input m, output [8:0] s, output n);
  assign s = m ? a - b : a + b;
  assign n = s[7];
endmodule
