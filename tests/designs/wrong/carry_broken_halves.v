// Two halves that add and subtract each for itself.
// options: --width 6 --flags none
// verdict: WRONG
module x(input [5:0] a, b, input m, output [5:0] s);
  assign s[2:0] = m ? a[2:0] - b[2:0] : a[2:0] + b[2:0];
  assign s[5:3] = m ? a[5:3] - b[5:3] : a[5:3] + b[5:3];
endmodule
