%# The unit gate by gate: one two-input gate a line.
%each line
%if part.control

  // The control pins.
%end
%if part.operands

  // The operands as the adder sees them.
%end
%if part.column

  // Column ${column}
%end
%if part.level

  // Carries, level ${column}
%end
%if part.group

  // Carries, group ${column}
%end
%if part.sums

  // The sums.
%end
%if part.flags

  // The flags.
%end
%if declares
  wire ${target} = ${expression};
%else
  assign ${target} = ${expression};
%end
%end
