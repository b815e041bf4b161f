%# The comment that opens the unit's file.
// ${name}: ${operations} on ${width}-bit words
//
${contract}
%if only
//
//   Made of ${gate_count} two-input ${only} gates and nothing else; an inverter is one with both
//   inputs tied.
%end
//
// Made by: ${command}
