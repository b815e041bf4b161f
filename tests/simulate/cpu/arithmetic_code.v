// The unit whose operation is a code: the instruction's field is the field of the unit.
module arithmetic (
    input  wire       clk,
    input  wire       rst,
    input  wire [3:0] op,
    input  wire [7:0] a,
    input  wire [7:0] b,
    input  wire       cin,
    output wire [7:0] result,
    output wire [7:0] flags
);
  wire unused = clk ^ rst;  // a unit without registers has no clock

  alu alu (
      .op           (op),
      .cin          (cin),
      .a            (a),
      .b            (b),
      .result       (result),
      .carry        (flags[7]),
      .overflow     (flags[6]),
      .zero         (flags[5]),
      .negative     (flags[4]),
      .less_signed  (flags[3]),
      .less_unsigned(flags[2]),
      .parity       (flags[1]),
      .half_carry   (flags[0])
  );
endmodule
