
// Two neighbours looked at together: the carry that enters each, and whether they make one or
// pass one on as a group.
module ${name}_unit_2 (
    input  wire [1:0] generates,
    input  wire [1:0] passes,
    input  wire       carry_in,
    output wire [1:1] carries,
    output wire       group_generates,
    output wire       group_passes
);
  assign carries[1] = generates[0] | (passes[0] & carry_in);

  assign group_generates = generates[1] | (passes[1] & generates[0]);
  assign group_passes    = passes[1] & passes[0];
endmodule
