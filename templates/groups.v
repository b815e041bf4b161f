%# Groups of columns, each a cell: the carry goes from group to group.
${columns}

  // Structure ${structure}: ${structure_about}
  // (${structure_source}). ${carry}_8 is what enters column 8.
  wire [${sign}:0] ${carries};
  wire ${lowest} = ${make.carry_in};
%each group

  wire ${carry_out};
  ${name}_${kind} #(
      .COLUMNS(${size})
  ) ${instance} (
      .generates(${generates}[${top}:${bottom}]),
      .passes   (${passes}[${top}:${bottom}]),
      .carry_in (${carry_in}),
      .carries  (${carries}[${top}:${bottom}]),
      .carry_out(${carry_out})
  );
%end

  wire [${sign}:0] ${sum} = ${half} ^ ${carries};
%if last_carry
%else

  wire ${unused_carry} = ${last};
%end
${flags}
