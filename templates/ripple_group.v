
// Columns that each wait for the carry of the one before it.
module ${name}_first_group #(
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
      wire enters;
      wire leaves = generates[i] | (passes[i] & enters);

      if (i == 0) begin : lowest
        assign enters = carry_in;
      end else begin : higher
        assign enters = column[i-1].leaves;
      end
      assign carries[i] = enters;
    end
  endgenerate

  assign carry_out = column[COLUMNS-1].leaves;
endmodule
