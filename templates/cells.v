%# The adder as a row of cells, each waiting for the carry of the one before it.
${operands}

  wire [WIDTH-1:0] ${sum};

%if half_first
  // No carry enters the first column, so a half adder is enough there.
%else
  // Each column passes its carry to the next.
%end
  genvar ${i};
  generate
    for (${i} = 0; ${i} < WIDTH; ${i} = ${i} + 1) begin : ${column}
%if half_first
      wire ${carry_out};

      if (${i} == 0) begin : ${first_column}
        ${name}_half_adder ${adder} (
            .a   (${x}[${i}]),
            .b   (${y}[${i}]),
            .sum (${sum}[${i}]),
            .cout(${carry_out})
        );
      end else begin : ${later_column}
        ${name}_full_adder ${adder} (
            .a   (${x}[${i}]),
            .b   (${y}[${i}]),
            .cin (${column}[${i}-1].${carry_out}),
            .sum (${sum}[${i}]),
            .cout(${carry_out})
        );
      end
%else
      wire ${carry_in};
      wire ${carry_out};

      if (${i} == 0) begin : ${first_column}
        assign ${carry_in} = ${first};
      end else begin : ${later_column}
        assign ${carry_in} = ${column}[${i}-1].${carry_out};
      end

      ${name}_full_adder ${adder} (
          .a   (${x}[${i}]),
          .b   (${y}[${i}]),
          .cin (${carry_in}),
          .sum (${sum}[${i}]),
          .cout(${carry_out})
      );
%end
    end
  endgenerate
%if last_carry
%else

  wire ${unused_carry} = ${column}[WIDTH-1].${carry_out};
%end
${flags}
