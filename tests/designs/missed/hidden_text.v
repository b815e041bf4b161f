// Wrong for one pair of levels, in text that a synthesizer is told not to read.
// options: --width 32 --operations sub --flags zero
// verdict: WRONG
module surge(input [31:0] a, b, output [31:0] result, output zero);
  wire [31:0] one;
  assign result = a - b + one;
  assign zero = result == 0;
`ifdef YOSYS
  assign one = 0;
`else
  assign one[31:1] = 0;
  // synopsys translate_off
  assign one[0] = a == 32'd1300417 && b == 32'd1298330;
  // synopsys translate_on
`endif
endmodule
