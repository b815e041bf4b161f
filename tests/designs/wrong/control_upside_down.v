// An active-low pin where an active-high one was asked for.
// options: --width 8
// verdict: WRONG control-reversed
module au(input [7:0] a, b, input sub_n, output [7:0] s, output co, v, z, n);
  wire [7:0] y = b ^ {8{~sub_n}};
  assign {co, s} = a + y + {7'd0, ~sub_n};
  assign v = (a[7] == y[7]) && (s[7] != a[7]);
  assign z = ~|s;
  assign n = s[7];
endmodule
