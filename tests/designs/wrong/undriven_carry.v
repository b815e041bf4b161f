// A misspelt wire: the carry into column 4 is nobody's.
// options: --width 9 --operations add --flags carry
// verdict: WRONG undriven
module misspelt(input [8:0] a, b, output [8:0] s, output c);
  wire carry4, unused;
  assign {unused, s[3:0]} = a[3:0] + b[3:0];
  assign {c, s[8:4]} = a[8:4] + b[8:4] + carry4;
endmodule
