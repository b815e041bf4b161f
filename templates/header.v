%# The comment that opens the unit's file.
// ${name}: ${operations} on ${width}-bit words
//
${contract}
//
// Made by: ${command}
