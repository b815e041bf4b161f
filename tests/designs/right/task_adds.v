// One task adds, and is called for both operations.
// options: --width 6
// verdict: PASS
module au (input [5:0] x, y, input k, output reg [5:0] s, output reg co, v, z, n);
  task add;
    input [5:0] p, q; input ci;
    output [5:0] r; output cout, ov;
    reg [5:0] low;
    begin
      low = p[4:0] + q[4:0] + ci;
      {cout, r} = p + q + ci;
      ov = low[5] != cout;
    end
  endtask
  always @* begin
    if (k) add(x, ~y, 1'b1, s, co, v);
    else add(x, y, 1'b0, s, co, v);
    z = (s == 0); n = s[5];
  end
endmodule
