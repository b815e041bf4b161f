%# The unit gate by gate: one two-input gate a line, an expression or, where all are of one kind, an
%# instance of it.
%if unread

  // Nothing depends on these.
%each unread
  wire ${unused} = ${bit};
%end
%end
%each line
%if part
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
%end
%if primitive
%each declared
%if first_line
  wire ${names}
%else
       ${names}
%end
%end
%if is_gate
  ${primitive} (${target}, ${reads});
%else
  assign ${target} = ${expression};
%end
%else
%if declares
  wire ${target} = ${expression};
%else
  assign ${target} = ${expression};
%end
%end
%end
