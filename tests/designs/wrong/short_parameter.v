// Made for eight bits and set into sixteen.
// options: --width 16 --flags none
// verdict: WRONG width-short
module core(input [7:0] a, b, input m, output [7:0] s);
  assign s = a + (b ^ {8{m}}) + m;
endmodule
module wrapper(input [15:0] a, b, input m, output [15:0] s);
  wire [7:0] t;
  core c(a[7:0], b[7:0], m, t);
  assign s = {8'd0, t};
endmodule
