
// Columns that work out their carries twice, as if none entered the group and as if one did; the
// one that does enter selects. What there is without it is there with it, too, so that AND and OR
// select.
module ${name}_group #(
    parameter COLUMNS = 2
) (
    input  wire [COLUMNS-1:0] generates,
    input  wire [COLUMNS-1:0] passes,
    input  wire               carry_in,
    output wire [COLUMNS-1:0] carries,   // that enter its columns
    output wire               carry_out
);
  genvar i;
  generate
    for (i = 0; i < COLUMNS; i = i + 1) begin : column
      wire without;  // what leaves this column if none enters the group,
      wire with_one; // and if one does
      wire leaves = without | (with_one & carry_in);

      if (i == 0) begin : lowest
        assign without    = generates[0];
        assign with_one   = generates[0] | passes[0];
        assign carries[0] = carry_in;
      end else begin : higher
        assign without    = generates[i] | (passes[i] & column[i-1].without);
        assign with_one   = generates[i] | (passes[i] & column[i-1].with_one);
        assign carries[i] = column[i-1].leaves;
      end
    end
  endgenerate

  assign carry_out = column[COLUMNS-1].leaves;
endmodule
