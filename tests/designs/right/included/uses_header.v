// Widths from an included file beside it.
// options: --width 9 --operations sub --flags none
// verdict: PASS
`include "widths.vh"
module uses_header(input [`W-1:0] a, b, output [`W-1:0] diff);
  assign diff = a - b;
endmodule
