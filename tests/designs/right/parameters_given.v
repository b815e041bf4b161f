// Parameters of the course's own: the width in nibbles, and which branch is built.
// options: --width 12 --flags carry --parameter NIBBLES=3 --parameter KIND=1
// verdict: PASS
module by_nibbles #(parameter NIBBLES = 2, KIND = 0, localparam_like = 4 * NIBBLES) (
    input [localparam_like-1:0] a, b, input sub,
    output [localparam_like-1:0] s, output carry);
  wire [NIBBLES:0] c;
  assign c[0] = sub, carry = c[NIBBLES];
  genvar k;
  generate for (k = 0; k < NIBBLES; k = k + 1) begin : nibble
    case (KIND)
      1: assign {c[k+1], s[4*k +: 4]} = a[4*k +: 4] + {1'b0, b[4*k +: 4] ^ {4{sub}}} + c[k];
      default: assign {c[k+1], s[4*k +: 4]} = 5'd0;
    endcase
  end endgenerate
endmodule
