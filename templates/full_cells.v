    for (${i} = ${from}; ${i} < ${until}; ${i} = ${i} + 1) begin : ${column}
      ${name}_full_adder ${adder} (
          .a   (${x}[${i}]),
          .b   (${y}[${i}]),
          .cin (${carries}[${i}]),
          .sum (${sum}[${i}]),
          .cout(${carries}[${i}+1])
      );
    end
