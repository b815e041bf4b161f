// options: --width 4 --flags none
// verdict: UNTESTED
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  unit inner(a, b, m, );
endmodule
