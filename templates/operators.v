%# The adder as an operator: how its carries travel is left to the synthesizer.
${operands}

%if last_carry
  // One bit more than the operands keeps the carry out of the last column.
  wire [WIDTH:0] ${total} = ${addition};
  wire [WIDTH-1:0] ${sum} = ${total}[WIDTH-1:0];
%else
  wire [WIDTH-1:0] ${sum} = ${addition};
%end
${flags}
