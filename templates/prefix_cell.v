
// Joins two neighbouring spans of columns into one.
module ${name}_prefix_cell (
    input  wire high_generates,
    input  wire high_passes,
    input  wire low_generates,
    input  wire low_passes,
    output wire generates,
    output wire passes
);
  assign generates = high_generates | (high_passes & low_generates);
  assign passes    = high_passes & low_passes;
endmodule
