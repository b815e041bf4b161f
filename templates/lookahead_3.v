
// Three neighbours looked at together: the carry that enters each, and whether they make one or
// pass one on as a group.
module ${name}_unit_3 (
    input  wire [2:0] generates,
    input  wire [2:0] passes,
    input  wire       carry_in,
    output wire [2:1] carries,
    output wire       group_generates,
    output wire       group_passes
);
  assign carries[1] = generates[0] | (passes[0] & carry_in);
  assign carries[2] = generates[1] | (passes[1] & generates[0])
                    | (passes[1] & passes[0] & carry_in);

  assign group_generates = generates[2] | (passes[2] & generates[1])
                         | (passes[2] & passes[1] & generates[0]);
  assign group_passes    = passes[2] & passes[1] & passes[0];
endmodule
