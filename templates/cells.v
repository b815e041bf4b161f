%# The adder as a row of cells, each waiting for the carry of the one before it.
${operands}

%if half_first
%if last_carry
  // No carry enters the first column, so a half adder is enough there.
  wire [WIDTH:1] ${carries};
  wire [WIDTH-1:0] ${sum};

${first_cell}

  genvar ${i};
  generate
${full_cells}
  endgenerate
%else
  // No carry enters the first column, so a half adder is enough there; nobody asks for the carry
  // out of the last column, which needs only its sum.
  wire [WIDTH-1:0] ${sum};

  genvar ${i};
  generate
    if (WIDTH == 1) begin : ${one_column}
      assign ${sum}[0] = ${x}[0] ^ ${y}[0];
    end else begin : ${more_columns}
      wire [WIDTH-1:1] ${carries};

  ${first_cell}

  ${full_cells}

      assign ${sum}[WIDTH-1] = ${x}[WIDTH-1] ^ ${y}[WIDTH-1] ^ ${carries}[WIDTH-1];
    end
  endgenerate
%end
%else
%if last_carry
  // Carry k enters column k; the one past the last column leaves the unit.
  wire [WIDTH:0] ${carries};
%else
  // Carry k enters column k; nobody asks for the carry out of the last column, which needs only
  // its sum.
  wire [WIDTH-1:0] ${carries};
%end
  wire [WIDTH-1:0] ${sum};

  assign ${carries}[0] = ${first};

  genvar ${i};
  generate
${full_cells}
  endgenerate
%if last_carry
%else

  assign ${sum}[WIDTH-1] = ${x}[WIDTH-1] ^ ${y}[WIDTH-1] ^ ${carries}[WIDTH-1];
%end
%end
${flags}
