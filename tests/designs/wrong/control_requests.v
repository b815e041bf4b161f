// The two requests are exchanged inside.
// options: --width 9 --operations add,sub,inc --control one-hot --flags zero,negative
// verdict: WRONG control-reversed
module requested(input [8:0] a, b, input do_add, do_sub, do_inc, output reg [8:0] r, output z, n);
  always @*
    if (do_add) r = a - b;
    else if (do_sub) r = a + b;
    else if (do_inc) r = a + 1;
    else r = 0;
  assign z = !r, n = r[8];
endmodule
