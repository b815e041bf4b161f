%# What `check` puts around somebody's design: it gives the design the vectors and writes down what
%# comes out. It knows nothing of what should: the program compares. The design is compiled before
%# it and sets the time unit; every name but the design's own ends in a tag that it cannot
%# know, so that no type, macro or name of it means anything here.
module ${bench};
  reg [${high}:0] memory_${tag} [0:${last}];  // what is given, and then in its place what was seen
  reg [${high}:0] word_${tag};
  integer k_${tag};
%if clocked
  reg clk_${tag};
  reg [${operands_high}:0] last_${tag};  // the operands of the clock before
  reg moved_${tag};
%end
  reg [${out_high}:0] earlier_${tag};  // the outputs, to be compared
%each output
  wire ${range}${wire};
%end

  wire [${flags_high}:0] flags_${tag} = {${flags}};

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
    $readmemh("${given}", memory_${tag});
%if clocked
    // While the clock is high and as it falls, the operands are those of the clock before: nothing
    // must take them then, nor show then what it has taken. The first bit that is seen says so.
    clk_${tag} = 1'b0;
    moved_${tag} = 1'b0;
    last_${tag} = memory_${tag}[0];
    for (k_${tag} = 0; k_${tag} <= ${last}; k_${tag} = k_${tag} + 1) begin
      word_${tag} = memory_${tag}[k_${tag}];
      #${settle} memory_${tag}[k_${tag}] = {moved_${tag}, flags_${tag}, out_result_${tag}};
      clk_${tag} = 1'b1;
      #${settle} {word_${tag}[${operands_high}:0], last_${tag}} = {last_${tag}, word_${tag}[${operands_high}:0]};
      #${settle} earlier_${tag} = {flags_${tag}, out_result_${tag}};
      clk_${tag} = 1'b0;
      #${settle} moved_${tag} = earlier_${tag} !== {flags_${tag}, out_result_${tag}};
    end
%else
    // At the first vectors an input by itself, by turns, brings the word about; then every bit does.
    // The first bit that is seen says where the outputs differ.
    for (k_${tag} = 0; k_${tag} < ${alone}; k_${tag} = k_${tag} + 1) begin
      word_${tag} = memory_${tag}[k_${tag}];
      case (k_${tag} % ${inputs})
%each turn
        ${number}: ${slice} = ~${slice};
%end
      endcase
      #${settle} word_${tag} = memory_${tag}[k_${tag}];
      #${settle} earlier_${tag} = {flags_${tag}, out_result_${tag}};
      word_${tag} = ~memory_${tag}[k_${tag}];
      #${settle} word_${tag} = memory_${tag}[k_${tag}];
      #${settle} memory_${tag}[k_${tag}] = {earlier_${tag} !== {flags_${tag}, out_result_${tag}}, flags_${tag}, out_result_${tag}};
    end
    for (k_${tag} = ${alone}; k_${tag} <= ${last}; k_${tag} = k_${tag} + 1) begin
      word_${tag} = memory_${tag}[k_${tag}];
      #${settle} memory_${tag}[k_${tag}] = {flags_${tag}, out_result_${tag}};
    end
%end
    $writememb("${seen}", memory_${tag});
    $finish;
  end
endmodule
