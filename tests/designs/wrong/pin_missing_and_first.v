// A flag that is not there, in a design that forgets the +1.
// options: --width 4 --flags zero
// verdict: WRONG first-carry-missing pin-missing
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a + ~b : a + b;
endmodule
