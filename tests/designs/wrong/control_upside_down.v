// An active-low pin where an active-high one was asked for.
// options: --width 9
// verdict: WRONG control-reversed
module au(input [8:0] a, b, input sub_n, output [8:0] s, output co, v, z, n);
  wire [8:0] y = b ^ {9{~sub_n}};
  assign {co, s} = a + y + {8'd0, ~sub_n};
  assign v = (a[8] == y[8]) && (s[8] != a[8]);
  assign z = ~|s;
  assign n = s[8];
endmodule
