// The harbour logger's CPU, an invented one: an accumulator of eight bits, an index, eight flags.
// It is an example of a CPU around a generated unit; docs/cpu.md tells its story.
//
// An instruction is 20 bits: kind, operation (or flag), operand.
//
//   kind  name          what it does
//   0     IMMEDIATE     accumulator = operation(accumulator, operand)
//   1     DIRECT        accumulator = operation(accumulator, memory[operand])
//   2     INDEXED       accumulator = operation(accumulator, memory[operand + index])
//   4-6                 the same three, for the flags' sake alone: compare, test
//   8     STORE         memory[operand] = accumulator
//   9     STORE_INDEXED memory[operand + index] = accumulator
//   a     INDEX         index = operation(index, operand)
//   b     INDEX_TEST    the same, for the flags' sake alone
//   c     IF_SET        jump to operand if the flag is 1
//   d     IF_CLEAR      jump to operand if the flag is 0
//   e     FLAGS         accumulator = the flags, carry at the top
//   f     HALT
//
// The operation goes to the arithmetic unit as it stands in the instruction. A `pass` delivers the
// operand: it is the load, and leaves the flags alone when it loads.
module cpu #(
    parameter LATENCY = 0  // clocks that the arithmetic unit takes: 0, 1 or 2
) (
    input  wire        clk,
    input  wire        rst,
    output wire        halted,
    // program
    output reg  [11:0] counter,
    input  wire [19:0] instruction,
    // memory, which answers in the same clock
    output wire [11:0] address,
    input  wire  [7:0] loaded,
    output wire  [7:0] stored,
    output wire        store
);
  localparam [3:0] STORE = 4'h8, STORE_INDEXED = 4'h9, INDEX = 4'ha, INDEX_TEST = 4'hb;
  localparam [3:0] IF_SET = 4'hc, IF_CLEAR = 4'hd, FLAGS = 4'he, HALT = 4'hf;
  localparam [3:0] PASS = 4'h8;

  reg [7:0] accumulator;
  reg [7:0] index;
  reg [7:0] flags;  // carry, overflow, zero, negative, less_signed, less_unsigned, parity, half_carry
  reg [1:0] step;   // clocks that the instruction has had

  // The parts of the instruction.
  wire  [3:0] kind = instruction[19:16];
  wire  [3:0] operation = instruction[15:12];
  wire [11:0] operand = instruction[11:0];

  wire computes = kind[3:2] == 2'b00;
  wire compares = kind[3:2] == 2'b01;
  wire on_index = kind == INDEX || kind == INDEX_TEST;
  wire immediate = kind[1:0] == 2'b00 || on_index;
  wire indexed = (kind[3] == 1'b0 && kind[1:0] == 2'b10) || kind == STORE_INDEXED;

  // The memory.
  assign address = indexed ? operand + {4'b0, index} : operand;
  assign stored = accumulator;
  assign store = (kind == STORE || kind == STORE_INDEXED) && step == LATENCY;

  // The arithmetic unit. What it is given stands still for as many clocks as it takes.
  wire [7:0] value = immediate ? operand[7:0] : loaded;
  wire [7:0] mine = on_index ? index : accumulator;
  wire [7:0] result;
  wire [7:0] outcome;

  arithmetic arithmetic (
      .clk    (clk),
      .rst    (rst),
      .op     (operation),
      .a      (operation == PASS ? value : mine),
      .b      (value),
      .cin    (flags[7]),
      .result (result),
      .flags  (outcome)
  );

  // A branch looks at one flag, counted from carry.
  wire flag = flags[3'd7 - operation[2:0]];
  wire jumps = (kind == IF_SET && flag) || (kind == IF_CLEAR && !flag);

  assign halted = kind == HALT;

  always @(posedge clk) begin
    if (rst) begin
      counter <= 12'd0;
      accumulator <= 8'd0;
      index <= 8'd0;
      flags <= 8'd0;
      step <= 2'd0;
    end else if (step != LATENCY) begin
      step <= step + 2'd1;
    end else if (!halted) begin
      step <= 2'd0;
      counter <= jumps ? operand : counter + 12'd1;
      if (computes) accumulator <= result;
      if (kind == FLAGS) accumulator <= flags;
      if (kind == INDEX) index <= result;
      if (compares || kind == INDEX_TEST || ((computes || kind == INDEX) && operation != PASS))
        flags <= outcome;
    end
  end
endmodule
