// logger_alu_tb: drives logger_alu with the vectors of logger_alu.vec and compares every output.
//
//   iverilog -g2005 -Wall -o logger_alu.vvp logger_alu.v logger_alu_tb.v
//   vvp -n logger_alu.vvp
//
//   or: verilator --binary --timing --top logger_alu_tb logger_alu_tb.v logger_alu.v
//       obj_dir/Vlogger_alu_tb
//
//   +vectors=FILE  other vectors
//   +limit=N       at most N lines about mismatches (10)
//   +dump          writes logger_alu.vcd (verilator: add --trace when building)
//
// It ends with one line, PASS or FAIL, and a FAIL with a status that is not 0. A word of the
// vectors holds what the pins are given and what must come out:
//   op_cin_a_b_result_carry,overflow,zero,negative,less_signed,less_unsigned,parity,half_carry
// Random vectors among them: at most 500, seed 1.
//
// The unit does add, adc, sub and sbc on 16-bit words:
//
//   add   a + b           where op is 00
//   adc   a + b + carry   where op is 01
//   sub   a - b           where op is 10
//   sbc   a - b - borrow  where op is 11
//
//   op             chooses the operation
//   cin            in adc: carry, 1 adds one more
//   cin            in sbc: no borrow, 0 subtracts one more
//   a              first operand, a
//   b              second operand, b
//   result         the exact result, modulo 2^16
//   carry          in addition: carry, the exact unsigned result is 2^16 or more
//   carry          in subtraction: no borrow, the exact unsigned result is not below 0
//   overflow       the exact signed result does not fit
//   zero           the result is 0
//   negative       the sign bit of the result
//   less_signed    the exact signed result is below 0
//   less_unsigned  the exact unsigned result is below 0
//   parity         an odd number of the bits of the result is 1
//   half_carry     what carry says, for the lowest four bits alone
//
//   Without registers: the outputs follow the inputs.
//
// Made by: sumwright emit --name logger_alu --width 16 --operations add,adc,sub,sbc --flags carry,overflow,zero,negative,less-signed,less-unsigned,parity,half-carry --detail operators --vectors 500

module logger_alu_tb;
  parameter ROOM = 5175;  // the most vectors that fit

  localparam BITS = 64;  // of a word
  localparam OUT  = 24;  // of them, what must come out

  reg [BITS-1:0] memory [0:ROOM];
  reg [BITS-1:0] vector;  // the vector at the pins, and what must come out
  reg [8*1024-1:0] path;
  integer file;
  integer found;
  integer count;
  integer limit;
  integer differ;
  integer k;

  wire [1:0] op = vector[61:60];
  wire cin = vector[56];
  wire [15:0] a = vector[55:40];
  wire [15:0] b = vector[39:24];
  wire [15:0] result;
  wire carry;
  wire overflow;
  wire zero;
  wire negative;
  wire less_signed;
  wire less_unsigned;
  wire parity;
  wire half_carry;

  wire unused_bits = ^vector;  // those that fill a field up to whole digits

  // The flags, as a vector has them.
  wire [7:0] flags = {carry, overflow, zero, negative, less_signed, less_unsigned, parity, half_carry};

  logger_alu #(
      .WIDTH(16)
  ) dut (
      .op(op),
      .cin(cin),
      .a(a),
      .b(b),
      .result(result),
      .carry(carry),
      .overflow(overflow),
      .zero(zero),
      .negative(negative),
      .less_signed(less_signed),
      .less_unsigned(less_unsigned),
      .parity(parity),
      .half_carry(half_carry)
  );

  task report;
    begin
      differ = differ + 1;
      if (differ <= limit)
        $display("mismatch vector %0d: op=%b cin=%b a=%h b=%h gives result=%h carry=%b overflow=%b zero=%b negative=%b less_signed=%b less_unsigned=%b parity=%b half_carry=%b, expected %h %b %b %b %b %b %b %b %b", k, vector[61:60], vector[56], vector[55:40], vector[39:24], result, carry, overflow, zero, negative, less_signed, less_unsigned, parity, half_carry, vector[23:8], vector[7], vector[6], vector[5], vector[4], vector[3], vector[2], vector[1], vector[0]);
    end
  endtask

  task fail_early;
    begin
      $fatal(1);
      $finish;
    end
  endtask

  initial begin
    if (!$value$plusargs("vectors=%s", path)) path = "logger_alu.vec";
    if (!$value$plusargs("limit=%d", limit)) limit = 10;
    if ($test$plusargs("dump")) begin
      $dumpfile("logger_alu.vcd");
      $dumpvars(0, logger_alu_tb);
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
      $display("FAIL logger_alu: cannot open %0s", path);
      fail_early;
    end else if (count < 1 || count > ROOM) begin
      $display("FAIL logger_alu: %0s does not hold 1 to %0d vectors", path, ROOM);
      fail_early;
    end else if (memory[count] !== {BITS{1'b1}}) begin
      $display("FAIL logger_alu: %0s is cut short or longer than it says", path);
      fail_early;
    end else begin
      differ = 0;
      for (k = 0; k < count; k = k + 1) begin
        vector = memory[k];
        #1;
        if ({result, flags} !== vector[OUT-1:0]) report;
      end
      if (differ == 0) begin
        $display("PASS logger_alu: %0d vectors", count);
        $finish;
      end else begin
        $display("FAIL logger_alu: %0d of %0d vectors differ", differ, count);
        $fatal(1);
        $finish;
      end
    end
  end
endmodule
