  ${name}_half_adder ${first_adder} (
      .a   (${x}[0]),
      .b   (${y}[0]),
      .sum (${sum}[0]),
      .cout(${carries}[1])
  );
