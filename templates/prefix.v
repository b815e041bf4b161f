%# A prefix network of cells: the carry of every column at once.
${columns}

  // Structure ${structure}: ${structure_about}
  // (${structure_source}).
  //
  // A cell joins two neighbouring spans of columns: together they generate what the upper one
  // generates, or passes on from the lower one. ${generates}_7_4 is what columns 7 to 4 generate;
  // ${carry}_8 is what enters column 8, which is what columns 7 to 0 generate.
%if entered
  wire ${lowest} = ${make.carry_in};
%else
  wire ${lowest} = ${generates}[0];
%end
%each level

  // Level ${level}
%each cell
%if joins
  wire ${span_generates}, ${span_passes};
  ${name}_prefix_cell ${instance} (
      .high_generates(${high_generates}), .high_passes(${high_passes}),
      .low_generates(${low_generates}), .low_passes(${low_passes}),
      .generates(${span_generates}), .passes(${span_passes})
  );
%else
  wire ${carry_out};
  ${name}_carry_cell ${instance} (
      .generates(${high_generates}), .passes(${high_passes}),
      .carry_in(${carry_in}), .carry_out(${carry_out})
  );
%end
%end
%end

  // The sums.
  wire [${sign}:0] ${sum};
%each sums
%if enters
  assign ${sum}[${column}] = ${half}[${column}] ^ ${enters};
%else
  assign ${sum}[${column}] = ${half}[${column}];
%end
%end
%if last_carry
%else

  wire ${unused_carry} = ${last};
%end
${flags}
