// The carry by comparing, the sign by a threshold.
// options: --width 6 --flags carry,negative
// verdict: PASS
module x(input [5:0] a, b, input m, output [5:0] s, output co, output n);
  assign s = m ? a - b : a + b;
  assign co = m ? (a >= b) : (s < a);
  assign n = s >= 6'd32;
endmodule
