
// Adds three bits: sum has their parity, cout is 1 where two or three of them are 1.
module ${name}_full_adder (
    input  wire a,
    input  wire b,
    input  wire cin,
    output wire sum,
    output wire cout
);
  wire propagate = a ^ b;

  assign sum  = propagate ^ cin;
  assign cout = (a & b) | (propagate & cin);
endmodule
