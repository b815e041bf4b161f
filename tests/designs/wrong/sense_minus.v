// The minus sign makes a borrow.
// options: --width 12 --operations sub
// verdict: WRONG carry-sense-reversed
module minus(input signed [11:0] a, b, output [11:0] diff, output c, v, z, n);
  wire [12:0] t = {1'b0, a} - {1'b0, b};
  assign {c, diff} = t;
  assign v = (a[11] != b[11]) && (diff[11] != a[11]);
  assign z = a == b, n = diff[11];
endmodule
