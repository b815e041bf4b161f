// tide_residual_tb: drives tide_residual with the vectors of tide_residual.vec and compares every output.
//
//   iverilog -g2005 -Wall -o tide_residual.vvp tide_residual.v tide_residual_tb.v
//   vvp -n tide_residual.vvp
//
//   or: verilator --binary --timing --top tide_residual_tb tide_residual_tb.v tide_residual.v
//       obj_dir/Vtide_residual_tb
//
//   +vectors=FILE  other vectors
//   +limit=N       at most N lines about mismatches (10)
//   +dump          writes tide_residual.vcd (verilator: add --trace when building)
//
// It ends with one line, PASS or FAIL, and a FAIL with a status that is not 0. A word of the
// vectors holds what the pins are given and what must come out:
//   a_b_result_carry,overflow,zero,negative
// Random vectors among them: at most 2000, seed 1.
//
// The unit does sub on 12-bit words:
//
//   sub   a - b
//
//   observed   first operand, a
//   predicted  second operand, b
//   residual   the exact result, modulo 2^12
//   carry      in subtraction: no borrow, the exact unsigned result is not below 0
//   overflow   the exact signed result does not fit
//   zero       the result is 0
//   negative   the sign bit of the result
//
//   Without registers: the outputs follow the inputs.
//
// Made by: sumwright emit --name tide_residual --width 12 --operations sub --port a=observed --port b=predicted --port result=residual

module tide_residual_tb;
  parameter ROOM = 2711;  // the most vectors that fit

  localparam BITS = 40;  // of a word
  localparam OUT  = 16;  // of them, what must come out

  reg [BITS-1:0] memory [0:ROOM];
  reg [BITS-1:0] vector;  // the vector at the pins, and what must come out
  reg [8*1024-1:0] path;
  integer file;
  integer found;
  integer count;
  integer limit;
  integer differ;
  integer k;

  wire [11:0] a = vector[39:28];
  wire [11:0] b = vector[27:16];
  wire [11:0] result;
  wire carry;
  wire overflow;
  wire zero;
  wire negative;

  wire unused_bits = ^vector;  // those that fill a field up to whole digits

  // The flags, as a vector has them.
  wire [3:0] flags = {carry, overflow, zero, negative};

  tide_residual #(
      .WIDTH(12)
  ) dut (
      .observed(a),
      .predicted(b),
      .residual(result),
      .carry(carry),
      .overflow(overflow),
      .zero(zero),
      .negative(negative)
  );

  task report;
    begin
      differ = differ + 1;
      if (differ <= limit)
        $display("mismatch vector %0d: a=%h b=%h gives result=%h carry=%b overflow=%b zero=%b negative=%b, expected %h %b %b %b %b", k, vector[39:28], vector[27:16], result, carry, overflow, zero, negative, vector[15:4], vector[3], vector[2], vector[1], vector[0]);
    end
  endtask

  task fail_early;
    begin
      $fatal(1);
      $finish;
    end
  endtask

  initial begin
    if (!$value$plusargs("vectors=%s", path)) path = "tide_residual.vec";
    if (!$value$plusargs("limit=%d", limit)) limit = 10;
    if ($test$plusargs("dump")) begin
      $dumpfile("tide_residual.vcd");
      $dumpvars(0, tide_residual_tb);
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
      $display("FAIL tide_residual: cannot open %0s", path);
      fail_early;
    end else if (count < 1 || count > ROOM) begin
      $display("FAIL tide_residual: %0s does not hold 1 to %0d vectors", path, ROOM);
      fail_early;
    end else if (memory[count] !== {BITS{1'b1}}) begin
      $display("FAIL tide_residual: %0s is cut short or longer than it says", path);
      fail_early;
    end else begin
      differ = 0;
      for (k = 0; k < count; k = k + 1) begin
        vector = memory[k];
        #1;
        if ({result, flags} !== vector[OUT-1:0]) report;
      end
      if (differ == 0) begin
        $display("PASS tide_residual: %0d vectors", count);
        $finish;
      end else begin
        $display("FAIL tide_residual: %0d of %0d vectors differ", differ, count);
        $fatal(1);
        $finish;
      end
    end
  end
endmodule
