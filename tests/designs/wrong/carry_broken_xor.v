// A half adder in every column: no carry goes anywhere.
// options: --width 6 --operations add --flags none
// verdict: WRONG carry-broken
module halves(input [5:0] a, b, output [5:0] sum);
  xor x[5:0] (sum, a, b);
endmodule
