%# The columns of cells by themselves, before any carry is known.
${operands}

%if turns
  // Each column by itself. What goes from column to column is a carry in an addition and a borrow
  // in a subtraction, so that nothing enters the lowest column. A column makes one where both of
  // its bits are 1, the one of a turned over in a subtraction, and passes one on where either is.
%else
%if borrows
  // Each column by itself. What goes from column to column is a borrow, so that nothing enters the
  // lowest column: whether it makes one, and whether it passes one on.
%else
%if turned
  // Each column by itself. What goes from column to column says that there is no carry, so that
  // nothing enters the lowest column: whether it makes that, and whether it passes it on.
%else
  // Each column by itself: whether it makes a carry, and whether it passes one on.
%end
%end
%end
%if make.turned_a
  wire [${sign}:0] ${turned_a} = ${make.turned_a};
%end
%if make.half_sum
  wire [${sign}:0] ${half_sum} = ${make.half_sum};
%end
  wire [${sign}:0] ${generates} = ${make.generates};
%if make.passes
  wire [${sign}:${lowest_passing}] ${passes} = ${make.passes};
%end
