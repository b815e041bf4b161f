// options: --width 4 --flags none
// verdict: UNTESTED '$fopen'
`line 1 "bench_1.v" 0
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  integer f;
  initial f = $fopen("x");
endmodule
