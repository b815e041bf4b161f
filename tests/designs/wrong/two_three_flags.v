// Three flags, each wrong in its own way.
// options: --width 6 --flags overflow,zero,negative
// verdict: WRONG overflow-inverted zero-misses-bits negative-wrong
module w(input [5:0] a, b, input m, output [5:0] s, output v, z, n);
  wire [5:0] y = b ^ {6{m}};
  assign s = m ? a - b : a + b; assign z = s[2:0] == 0, n = s[4], v = ~(a[5] == y[5] && s[5] != a[5]);
endmodule
