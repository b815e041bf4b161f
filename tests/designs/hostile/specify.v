// options: --width 4 --flags none
// verdict: PASS
// Paths with delays, a cell: nothing wrong with it.
`celldefine
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  specify
    (a, b, m *> s) = (2, 3);
    specparam long = 1000000;
  endspecify
endmodule
`endcelldefine
