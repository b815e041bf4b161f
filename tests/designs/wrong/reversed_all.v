// Every bus most significant bit first.
// options: --width 9 --flags none
// verdict: WRONG bits-reversed
module ra(input [8:0] a, b, input m, output [8:0] s);
  wire [8:0] x, y, t;
  assign t = m ? x - y : x + y;
  genvar k;
  generate for (k = 0; k < 9; k = k + 1) begin : turn
    assign x[k] = a[8-k], y[k] = b[8-k], s[k] = t[8-k];
  end endgenerate
endmodule
