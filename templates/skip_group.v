
// Columns in which the carry ripples, and past which it skips: the group makes one of its own, or
// lets the one that enters through.
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
      wire enters;
      wire made;         // by this column and those below it, whatever enters the group
      wire let_through;  // by all of them

      if (i == 0) begin : lowest
        assign enters      = carry_in;
        assign made        = generates[0];
        assign let_through = passes[0];
      end else begin : higher
        assign enters      = generates[i-1] | (passes[i-1] & column[i-1].enters);
        assign made        = generates[i] | (passes[i] & column[i-1].made);
        assign let_through = passes[i] & column[i-1].let_through;
      end
      assign carries[i] = enters;
    end
  endgenerate

  assign carry_out = column[COLUMNS-1].made | (column[COLUMNS-1].let_through & carry_in);
endmodule
