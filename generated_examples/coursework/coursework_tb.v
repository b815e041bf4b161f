// coursework_tb: drives coursework with the vectors of coursework.vec and compares every output.
//
//   iverilog -g2005 -Wall -o coursework.vvp coursework.v coursework_tb.v
//   vvp -n coursework.vvp
//
//   or: verilator --binary --timing --top coursework_tb coursework_tb.v coursework.v
//       obj_dir/Vcoursework_tb
//
//   +vectors=FILE  other vectors
//   +limit=N       at most N lines about mismatches (10)
//   +dump          writes coursework.vcd (verilator: add --trace when building)
//
// It ends with one line, PASS or FAIL, and a FAIL with a status that is not 0. A word of the
// vectors holds what the pins are given and what must come out:
//   subtract_a_b_result_carry,overflow
// Random vectors among them: at most 2000, seed 1.
//
// The unit does add and sub on 4-bit words:
//
//   add   a + b           where subtract is 0
//   sub   a - b           where subtract is 1
//
//   subtract  chooses the operation
//   a         first operand, a
//   b         second operand, b
//   result    the exact result, modulo 2^4
//   carry     in addition: carry, the exact unsigned result is 2^4 or more
//   carry     in subtraction: no borrow, the exact unsigned result is not below 0
//   overflow  the exact signed result does not fit
//
//   Without registers: the outputs follow the inputs.
//
// Made by: sumwright emit --name coursework --width 4 --operations add,sub --flags carry,overflow --detail gates

module coursework_tb;
  parameter ROOM = 512;  // the most vectors that fit

  localparam BITS = 20;  // of a word
  localparam OUT  = 8;  // of them, what must come out

  reg [BITS-1:0] memory [0:ROOM];
  reg [BITS-1:0] vector;  // the vector at the pins, and what must come out
  reg [8*1024-1:0] path;
  integer file;
  integer found;
  integer count;
  integer limit;
  integer differ;
  integer k;

  wire subtract = vector[16];
  wire [3:0] a = vector[15:12];
  wire [3:0] b = vector[11:8];
  wire [3:0] result;
  wire carry;
  wire overflow;

  wire unused_bits = ^vector;  // those that fill a field up to whole digits

  // The flags, as a vector has them.
  wire [3:0] flags = {2'b0, carry, overflow};

  coursework dut (
      .subtract(subtract),
      .a(a),
      .b(b),
      .result(result),
      .carry(carry),
      .overflow(overflow)
  );

  task report;
    begin
      differ = differ + 1;
      if (differ <= limit)
        $display("mismatch vector %0d: subtract=%b a=%h b=%h gives result=%h carry=%b overflow=%b, expected %h %b %b", k, vector[16], vector[15:12], vector[11:8], result, carry, overflow, vector[7:4], vector[1], vector[0]);
    end
  endtask

  task fail_early;
    begin
      $fatal(1);
      $finish;
    end
  endtask

  initial begin
    if (!$value$plusargs("vectors=%s", path)) path = "coursework.vec";
    if (!$value$plusargs("limit=%d", limit)) limit = 10;
    if ($test$plusargs("dump")) begin
      $dumpfile("coursework.vcd");
      $dumpvars(0, coursework_tb);
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
      $display("FAIL coursework: cannot open %0s", path);
      fail_early;
    end else if (count < 1 || count > ROOM) begin
      $display("FAIL coursework: %0s does not hold 1 to %0d vectors", path, ROOM);
      fail_early;
    end else if (memory[count] !== {BITS{1'b1}}) begin
      $display("FAIL coursework: %0s is cut short or longer than it says", path);
      fail_early;
    end else begin
      differ = 0;
      for (k = 0; k < count; k = k + 1) begin
        vector = memory[k];
        #1;
        if ({result, flags} !== vector[OUT-1:0]) report;
      end
      if (differ == 0) begin
        $display("PASS coursework: %0d vectors", count);
        $finish;
      end else begin
        $display("FAIL coursework: %0d of %0d vectors differ", differ, count);
        $fatal(1);
        $finish;
      end
    end
  end
endmodule
