// The carry of the second group is copied to the fourth: c[1] for c[2].
// options: --width 32 --operations sub --flags carry,zero
// verdict: WRONG carry-broken
module w(input [31:0] a, b, output [31:0] d, output co, zero);
  wire [3:0] c; assign c[0] = 1; wire [31:0] nb = ~b;
  assign {c[1], d[7:0]} = a[7:0] + {1'b0, nb[7:0]} + c[0];
  assign {c[2], d[15:8]} = a[15:8] + {1'b0, nb[15:8]} + c[1];
  assign {c[3], d[23:16]} = a[23:16] + {1'b0, nb[23:16]} + c[1];
  assign {co, d[31:24]} = a[31:24] + {1'b0, nb[31:24]} + c[3];
  assign zero = d == 0;
endmodule
