%# Lookahead units: groups of four tell ahead whether they make a carry and whether they pass one on.
${columns}

  // Structure ${structure}: ${structure_about}
  // (${structure_source}).
  //
  // ${generates}_7_4 is what columns 7 to 4 generate together; ${carry}_8 enters column 8.
  wire ${lowest} = ${make.carry_in};
%each entering
  wire ${enters};
%end
  wire [${sign}:0] ${carries};
%each level

  // Level ${level}: units of up to ${columns_each} columns
%each unit
  wire ${span_generates}, ${span_passes};
  ${name}_unit_${size} ${instance} (
      .generates      (${unit_generates}),
      .passes         (${unit_passes}),
      .carry_in       (${carry_in}),
      .carries        (${unit_carries}),
      .group_generates(${span_generates}),
      .group_passes   (${span_passes})
  );
%end
%end

  // What enters the lowest column of each unit of level 1, and what leaves the highest of all.
%each bottom
  assign ${carries}[${column}] = ${enters};
%end
  wire ${last} = ${all_generates} | (${all_passes} & ${lowest});

  wire [${sign}:0] ${sum} = ${half} ^ ${carries};
%if last_carry
%else

  wire ${unused_carry} = ${last};
%end
${flags}
