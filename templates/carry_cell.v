
// The carry out of a span of columns: one of its own, or the one that enters, passed on.
module ${name}_carry_cell (
    input  wire generates,
    input  wire passes,
    input  wire carry_in,
    output wire carry_out
);
  assign carry_out = generates | (passes & carry_in);
endmodule
