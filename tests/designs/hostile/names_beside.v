// options: --width 4 --flags none
// verdict: UNTESTED does not compile
// Upwards through the name of the instance's own module: unit.a is found, its siblings are not.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = unit.a + unit.word;
endmodule
