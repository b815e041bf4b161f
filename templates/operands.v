%# The operand row of operators and cells: what the operation gives the adder.
%if decode

  // Which operation ${in.op} asks for.
%each decode
  wire ${line} = ${in.op} == ${code};
%end
%end
%if control

  // What the operation asks of the operand row.
%each control
  wire ${signal} = ${expression};
%end
%end
%if row

  // The operands as the adder sees them.
%if make.operand_a
  wire [${sign}:0] ${operand_a} = ${make.operand_a};
%end
%if make.operand_b
  wire [${sign}:0] ${operand_b} = ${make.operand_b};
%end
%if make.first_carry
  wire ${first_carry} = ${make.first_carry};
%end
%end
