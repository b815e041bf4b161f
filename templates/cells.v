%# The adder as a row of cells, each waiting for the carry of the one before it.
${operands}

%if half_first
  // Carry k enters column k, the one past the last column leaves the unit. None enters the first
  // column, so a half adder is enough there.
  wire [WIDTH:1] ${carries};
%else
  // Carry k enters column k, the one past the last column leaves the unit.
  wire [WIDTH:0] ${carries};
%end
  wire [WIDTH-1:0] ${sum};

%if half_first
  ${name}_half_adder ${first_adder} (
      .a   (${x}[0]),
      .b   (${y}[0]),
      .sum (${sum}[0]),
      .cout(${carries}[1])
  );
%else
  assign ${carries}[0] = ${first};
%end

  genvar ${i};
  generate
    for (${i} = ${from}; ${i} < WIDTH; ${i} = ${i} + 1) begin : ${column}
      ${name}_full_adder ${adder} (
          .a   (${x}[${i}]),
          .b   (${y}[${i}]),
          .cin (${carries}[${i}]),
          .sum (${sum}[${i}]),
          .cout(${carries}[${i}+1])
      );
    end
  endgenerate
%if last_carry
%else

  wire ${unused_carry} = ${carries}[WIDTH];
%end
${flags}
