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
// Made by: ${command}

module ${name}_tb;
  parameter ROOM = ${count};  // the most vectors that fit

  localparam BITS = ${bits};  // of a word
  localparam OUT  = ${out_bits};  // of them, what must come out

  reg [BITS-1:0] memory [0:ROOM];
%if registered
  reg [BITS-1:0] driven;   // the vector at the pins
%end
  reg [BITS-1:0] vector;   // the vector whose result is at the outputs
  reg [8*1024-1:0] path;
  integer file;
  integer found;
  integer count;
  integer limit;
  integer differ;
  integer k;
%if registered
  reg wrong;
  reg clk;
%end
%if reset
  reg rst;
%end
%if enable
  reg en;
  reg [BITS-1:0] kept;
%end

%each input
  wire ${range}${role} = ${slice};
%end
%each output
  wire ${range}${role};
%end

%if registered
  wire unused_driven = ^driven;  // what fills its fields up to whole digits drives nothing
%end

%if registered
  // The same word as the unit under test makes it.
  wire [BITS-1:0] observed = {vector[BITS-1:OUT], ${outputs}};

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

  task report;
    begin
      differ = differ + 1;
      if (differ <= limit)
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

  task tick;
    begin
      #1 clk = 1'b1;
      #1 clk = 1'b0;
    end
  endtask
%end
%if reset

  // Resets in mid-run: the outputs must be those of no operation.
  task clear;
    begin
      rst = ${reset_on};
%if async
      #1;
%else
      tick;
%end
      if (observed[OUT-1:0] !== ${cleared}) begin
        wrong = 1'b1;
        $display("mismatch reset before vector %0d: the outputs are not cleared", k);
      end
      rst = ${reset_off};
%if two_stages
      tick;
%end
    end
  endtask
%end
%if enable

  // A clock with the enable low and other operands: nothing may change.
  task hold;
    begin
      kept = observed;
      en = 1'b0;
      driven = memory[0];
      tick;
      if (observed !== kept) begin
        wrong = 1'b1;
        $display("mismatch hold before vector %0d: the outputs change without enable", k);
      end
      en = 1'b1;
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
      clk = 1'b0;
%if reset
      rst = ${reset_off};
%end
%if enable
      en = 1'b1;
%end
      driven = memory[0];
      vector = memory[0];
%if two_stages
      tick;
%end
      for (k = 0; k < count; k = k + 1) begin
        wrong = 1'b0;
%if enable
        if (k % 16 == 5) hold;
%end
%if reset
        driven = memory[k];
        if (k == count / 2 || k == 1) clear;
%end
%if two_stages
        driven = memory[k + 1 < count ? k + 1 : k];
%else
        driven = memory[k];
%end
        tick;
        vector = memory[k];
        #1;
        if (observed !== vector) wrong = 1'b1;
        if (wrong) report;
      end
%else
      for (k = 0; k < count; k = k + 1) begin
        vector = memory[k];
        #1;
        if ({vector[BITS-1:OUT], ${outputs}} !== vector) report;
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
