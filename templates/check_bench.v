%# What `check` puts around somebody's design: it gives the design the vectors and writes down what
%# comes out. It knows nothing of what should: the program compares. The design is compiled before
%# it and sets the time unit; module, instance and files have names that it cannot know.
module ${bench};
  reg [${high}:0] memory [0:${last}];  // what is given, and then in its place what was seen
  reg [${high}:0] word;
  integer k;
%if clocked
  reg clk;
  reg [${operands_high}:0] last;  // the operands of the clock before
  reg moved;
%end
  reg [${out_high}:0] earlier;  // the outputs, to be compared
%each output
  wire ${range}${wire};
%end

  wire [${flags_high}:0] flags = {${flags}};

%if parameters
  ${module} #(
%each parameter
      .${name}(${value})${comma}
%end
  ) ${instance} (
%else
  ${module} ${instance} (
%end
%each connection
      .${port}(${wire})${comma}
%end
  );

  initial begin
    $readmemh("${given}", memory);
%if clocked
    // While the clock is high and as it falls, the operands are those of the clock before: nothing
    // must take them then, nor show then what it has taken. The first bit that is seen says so.
    clk = 1'b0;
    moved = 1'b0;
    last = memory[0];
    for (k = 0; k <= ${last}; k = k + 1) begin
      word = memory[k];
      #${settle} memory[k] = {moved, flags, out_result};
      clk = 1'b1;
      #${settle} {word[${operands_high}:0], last} = {last, word[${operands_high}:0]};
      #${settle} earlier = {flags, out_result};
      clk = 1'b0;
      #${settle} moved = earlier !== {flags, out_result};
    end
%else
    // At the first vectors an input by itself, by turns, brings the word about; then every bit does.
    // The first bit that is seen says where the outputs differ.
    for (k = 0; k < ${alone}; k = k + 1) begin
      word = memory[k];
      case (k % ${inputs})
%each turn
        ${number}: ${slice} = ~${slice};
%end
      endcase
      #${settle} word = memory[k];
      #${settle} earlier = {flags, out_result};
      word = ~memory[k];
      #${settle} word = memory[k];
      #${settle} memory[k] = {earlier !== {flags, out_result}, flags, out_result};
    end
    for (k = ${alone}; k <= ${last}; k = k + 1) begin
      word = memory[k];
      #${settle} memory[k] = {flags, out_result};
    end
%end
    $writememb("${seen}", memory);
    $finish;
  end
endmodule
