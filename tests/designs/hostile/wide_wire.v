// options: --width 4 --flags none
// verdict: UNTESTED
// A wire of two thousand million bits.
module unit(input [3:0] a, b, input m, output [3:0] s);
  wire [1999999999:0] w = a;
  assign s = m ? w - b : a + b;
endmodule
