%# Only where no carry enters the first column.
%if half_first

// Adds two bits.
module ${name}_half_adder (
    input  wire a,
    input  wire b,
    output wire sum,
    output wire cout
);
  assign sum  = a ^ b;
  assign cout = a & b;
endmodule
%end
