// Every bus most significant bit first.
// options: --width 8 --flags none
// verdict: WRONG bits-reversed
module ra(input [7:0] a, b, input m, output [7:0] s);
  wire [7:0] x, y, t;
  assign t = m ? x - y : x + y;
  genvar k;
  generate for (k = 0; k < 8; k = k + 1) begin : turn
    assign x[k] = a[7-k], y[k] = b[7-k], s[k] = t[7-k];
  end endgenerate
endmodule
