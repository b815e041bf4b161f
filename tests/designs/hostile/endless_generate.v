// options: --width 4 --flags none
// verdict: UNTESTED
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  genvar k;
  generate for (k = 0; k < 2000000000; k = k + 1) begin : more
    wire [63:0] w = k;
  end endgenerate
endmodule
