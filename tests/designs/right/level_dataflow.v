// Dataflow, short names of the trade.
// options: --width 12
// verdict: PASS
module level(input [11:0] x, y, input m, output [11:0] s, output co, v, z, n);
  wire [11:0] w = y ^ {12{m}};
  wire [11:0] low = x[10:0] + w[10:0] + m;  // carry into the sign column on top
  assign {co, s} = x + w + m;
  assign v = co ^ low[11];
  assign z = !(|s);
  assign n = s[11];
endmodule
