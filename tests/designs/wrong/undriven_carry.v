// A misspelt wire: the carry into column 4 is nobody's.
// options: --width 8 --operations add --flags carry
// verdict: WRONG undriven
module misspelt(input [7:0] a, b, output [7:0] s, output c);
  wire carry4, unused;
  assign {unused, s[3:0]} = a[3:0] + b[3:0];
  assign {c, s[7:4]} = a[7:4] + b[7:4] + carry4;
endmodule
