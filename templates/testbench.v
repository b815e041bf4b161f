%# The self-checking testbench.
// ${name}_tb: drives ${name} with the vectors of ${name}.vec and compares every output.
//
//   iverilog -g2005 -Wall -o ${name}.vvp ${name}.v ${name}_tb.v
//   vvp -n ${name}.vvp
//
//   or: verilator --binary --timing --top ${name}_tb ${name}_tb.v ${name}.v
//       obj_dir/V${name}_tb
//
//   +vectors=FILE  other vectors
//   +limit=N       at most N lines about mismatches (10)
//   +dump          writes ${name}.vcd (verilator: add --trace when building)
//
// It ends with one line, PASS or FAIL, and a FAIL with a status that is not 0. A word of the
// vectors holds what the pins are given and what must come out:
//   ${layout}
// Random vectors among them: at most ${most}, seed ${seed}.
//
// The unit does ${operations} on ${width}-bit words:
//
${contract}
%if registered
//
// The outputs must change at the rising edge of the clock alone, with a new vector every clock.
%if reset
// From time to time, where it shows, there is a reset.
%end
%if enable
// From time to time, where it shows, there is a clock with the enable low.
%end
%end
//
// Made by: ${command}

module ${name}_tb;
  parameter ROOM = ${count};  // the most vectors that fit

  localparam BITS = ${bits};  // of a word
  localparam OUT  = ${out_bits};  // of them, what must come out

  reg [BITS-1:0] memory [0:ROOM];
%if registered
  reg [BITS-1:0] driven;     // the vector at the pins
  reg [BITS-1:0] following;  // the vector that is next to be there
  reg [BITS-1:0] vector;     // the vector whose result is at the outputs
%else
  reg [BITS-1:0] vector;  // the vector at the pins, and what must come out
%end
  reg [8*1024-1:0] path;
  integer file;
  integer found;
  integer count;
  integer limit;
  integer differ;
  integer k;
%if registered
  integer lines;             // about mismatches
  reg wrong;                 // at this vector or since the one before
  reg [OUT-1:0] kept;        // the outputs before the clock edge
  reg clk;
%end
%if reset
  integer next_clear;        // the first vector after which to reset again
  reg rst;
%end
%if enable
  integer next_hold;         // the first vector before which to hold again
  reg en;
%end

%each input
  wire ${range}${role} = ${slice};
%end
%each output
  wire ${range}${role};
%end

%if registered
  wire unused_bits = ^{driven, vector};  // those that fill a field up to whole digits

  // What comes out, as a vector has it.
  wire [OUT-1:0] observed = {${outputs}};
%else
  wire unused_bits = ^vector;  // those that fill a field up to whole digits
%if flag_outputs

  // The flags, as a vector has them.
  wire ${flag_range}flags = {${flag_outputs}};
%end
%end

%if keeps_width
  ${name} #(
      .WIDTH(${width})
  ) dut (
%else
  ${name} dut (
%end
%each connection
      .${pin}(${role})${comma}
%end
  );

%if registered
  task note;
    begin
      wrong = 1'b1;
      lines = lines + 1;
    end
  endtask

%end
  task report;
    begin
%if registered
      note;
      if (lines <= limit)
%else
      differ = differ + 1;
      if (differ <= limit)
%end
        $display("mismatch vector %0d: ${report_format}", k, ${report_arguments});
    end
  endtask

  task fail_early;
    begin
      $fatal(1);
      $finish;
    end
  endtask
%if registered

  // One clock. Its rising edge finds the following vector at the pins; before, while the clock is
  // high and as it falls, there is another, and the outputs must not care.
  task tick;
    begin
      kept = observed;
      driven = memory[0];
      #1 clk = 1'b0;
      #1 driven = following;
      #1;
      if (observed !== kept) begin
        note;
        if (lines <= limit)
          $display("mismatch at vector %0d: the outputs do not wait for the clock", k);
      end
      clk = 1'b1;
      #1;
    end
  endtask
%end
%if enable

  // A clock with the enable low: nothing may change.
  task hold;
    begin
      en = 1'b0;
      tick;
      if (observed !== kept) begin
        note;
        if (lines <= limit)
          $display("mismatch before vector %0d: the outputs change while the enable is low", k);
      end
      en = 1'b1;
      next_hold = k + 8;
    end
  endtask
%end
%if reset

  // The outputs must be those of no operation.
  task check_cleared;
    if (observed !== ${cleared}) begin
      note;
      if (lines <= limit)
        $display("mismatch after vector %0d: the outputs are not as a reset leaves them", k);
    end
  endtask

%if enable
  // A reset in mid-run, which must not wait for the enable.
%else
  // A reset in mid-run.
%end
  task clear;
    begin
      rst = ${reset_on};
%if enable
      en = 1'b0;
%end
%if async
      #1 check_cleared;
%end
      tick;
      check_cleared;
      rst = ${reset_off};
%if enable
      en = 1'b1;
%end
%if two_stages
      tick;
%end
      next_clear = k + 8;
    end
  endtask
%end

  initial begin
    if (!$value$plusargs("vectors=%s", path)) path = "${name}.vec";
    if (!$value$plusargs("limit=%d", limit)) limit = 10;
    if ($test$plusargs("dump")) begin
      $dumpfile("${name}.vcd");
      $dumpvars(0, ${name}_tb);
    end

    // The file's first line says how many vectors follow; after them a word of ones ends it.
    count = 0;
    found = -1;
    file = $fopen(path, "r");
    if (file != 0) begin
      found = $fscanf(file, "// %d vectors", count);
      if (found != 1) begin
        found = 0;
        count = 0;
      end
      $fclose(file);
    end
    if (count > 0 && count <= ROOM) $readmemh(path, memory, 0, count);

    if (found < 0) begin
      $display("FAIL ${name}: cannot open %0s", path);
      fail_early;
    end else if (count < 1 || count > ROOM) begin
      $display("FAIL ${name}: %0s does not hold 1 to %0d vectors", path, ROOM);
      fail_early;
    end else if (memory[count] !== {BITS{1'b1}}) begin
      $display("FAIL ${name}: %0s is cut short or longer than it says", path);
      fail_early;
    end else begin
      differ = 0;
%if registered
      lines = 0;
      k = 0;
      clk = 1'b0;
%if reset
      rst = ${reset_off};
      next_clear = 0;
%end
%if enable
      en = 1'b1;
      next_hold = 1;
%end
      driven = memory[0];
      following = memory[0];
%if two_stages
      tick;
%end
      for (k = 0; k < count; k = k + 1) begin
        wrong = 1'b0;
        vector = memory[k];
%if two_stages
        following = memory[k + 1 < count ? k + 1 : 0];
%else
        following = vector;
%end
%if enable
        // Where it shows: another result is due.
        if (k >= next_hold && vector[OUT-1:0] !== observed) hold;
%end
        tick;
        if (observed !== vector[OUT-1:0]) report;
%if reset
        // Where it shows: the outputs say something else.
        if (k >= next_clear && observed !== ${cleared}) clear;
%end
        if (wrong) differ = differ + 1;
      end
%else
      for (k = 0; k < count; k = k + 1) begin
        vector = memory[k];
        #1;
%if flag_outputs
        if ({${result_outputs}, flags} !== vector[OUT-1:0]) report;
%else
        if ({${result_outputs}} !== vector[OUT-1:0]) report;
%end
      end
%end
      if (differ == 0) begin
        $display("PASS ${name}: %0d vectors", count);
        $finish;
      end else begin
        $display("FAIL ${name}: %0d of %0d vectors differ", differ, count);
        $fatal(1);
        $finish;
      end
    end
  end
endmodule
