// options: --width 4 --flags none
// verdict: UNTESTED '$fgetc'
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  wire [31:0] c = $fgetc(32'h80000000);
endmodule
