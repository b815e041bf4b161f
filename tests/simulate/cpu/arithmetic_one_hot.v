// The unit with a request pin for each operation, behind a decoder. A code that is no operation
// requests nothing, and the unit then gives 0.
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
      .do_add       (op == 4'h0),
      .do_adc       (op == 4'h1),
      .do_sub       (op == 4'h2),
      .do_sbc       (op == 4'h3),
      .do_rsb       (op == 4'h4),
      .do_inc       (op == 4'h5),
      .do_dec       (op == 4'h6),
      .do_neg       (op == 4'h7),
      .do_pass      (op == 4'h8),
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
