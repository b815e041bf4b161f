// options: --width 4 --flags none
// verdict: UNTESTED does not compile
// A name looked for upwards in the hierarchy, from an instance below.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = 0;
  below u();
endmodule
module below;
  integer k;
  initial for (k = 0; k < 512; k = k + 1) memory[k] = 0;
endmodule
