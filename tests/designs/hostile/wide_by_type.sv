// Ports of two dimensions and of types: the compiler alone knows that the result is too wide.
// options: --width 4 --flags none
// verdict: UNTESTED port 'result' has 5 bits
typedef logic [4:0] wide;
module unit(input logic [1:0][1:0] a, b, input subtract, output wide result);
  assign result = subtract ? a - b : a + b;
endmodule
