%# What `check` puts around somebody's design: it gives the design the vectors and writes down what
%# comes out. It knows nothing of what should: the program compares. The design is compiled before
%# it and sets the time unit; module, instance and files have names that it cannot know.
module ${bench};
  reg [${high}:0] memory [0:${last}];  // what is given, and then in its place what was seen
  reg [${high}:0] word;
  integer k;
%if clocked
  reg clk;
%end
%each output
  wire ${range}${wire};
%end

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
    clk = 1'b0;
%end
    for (k = 0; k <= ${last}; k = k + 1) begin
      word = memory[k];
      #${settle} memory[k] = {${outputs}};
%if clocked
      clk = 1'b1;
      #${settle} clk = 1'b0;
      #${settle};
%end
    end
    $writememb("${seen}", memory);
    $finish;
  end
endmodule
