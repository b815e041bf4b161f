// options: --width 4 --flags none
// verdict: UNTESTED not done after
// A ring of one gate, at rest until m is 1.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  wire ring;
  nand (ring, ring, m);
endmodule
