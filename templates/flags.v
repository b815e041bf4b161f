%# The flag row of operators and cells: what is said about the result, and done to it.
%if signs

%if network
  // A signed result fits when what enters the sign column equals what leaves it.
  wire ${overflows} = ${leaves_sign} ^ ${enters_sign};
%else
%if cells
%if half_first
  // The carry into the sign column; a single column has none.
  wire ${into_sign};
  generate
    if (WIDTH == 1) begin : ${one_column}
      assign ${into_sign} = 1'b0;
    end else begin : ${more_columns}
      assign ${into_sign} = ${column}[WIDTH-2].${carry_out};
    end
  endgenerate

  // A signed result fits when the carry into the sign column equals the carry out of it.
  wire ${overflows} = ${column}[WIDTH-1].${carry_out} ^ ${into_sign};
%else
  // A signed result fits when the carry into the sign column equals the carry out of it.
  wire ${overflows} = ${column}[WIDTH-1].${carry_out} ^ ${column}[WIDTH-1].${carry_in};
%end
%else
  // A signed result does not fit when the operands' signs are equal and the sum's differs.
  wire ${overflows} = (${x}[WIDTH-1] == ${y}[WIDTH-1]) && (${sum}[WIDTH-1] != ${x}[WIDTH-1]);
%end
%end
%if below
  wire ${below_zero} = ${sum}[${sign}] ^ ${overflows};  // the sign of the exact result
%end
%end
%if saturates_signed

  // Where the result does not fit: 011...1 above, 100...0 below.
  wire [${sign}:0] ${nearest} = {${bits}{~${below_zero}}} ^ ${bottom_word};
  wire [${sign}:0] ${fitted} = ${overflows} ? ${nearest} : ${sum};
%end
%if make.too_low

  // Below 0 becomes 0, above 2^${bits} - 1 becomes that.
  wire ${too_low} = ${make.too_low};
%end
%if make.too_high
  wire ${too_high} = ${make.too_high};
%end
%if saturates_unsigned
  wire [${sign}:0] ${fitted} = ${make.fitted};
%end
%if masked

  // With nothing requested the result is 0.
  wire [${sign}:0] ${delivered} = ${whole} & {${bits}{${active}}};
%end

  assign ${out.result} = ${final};
%each flag_pin
  assign ${pin} = ${value};
%end
