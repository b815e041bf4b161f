// Runs the CPU on program.hex and memory.hex until it halts, and compares its memory with
// expected.hex, word by word.
module cpu_tb #(
    parameter LATENCY = 0
);
  localparam MOST_CLOCKS = 100000;

  reg [19:0] program [0:4095];
  reg  [7:0] memory [0:4095];
  reg  [7:0] expected [0:4095];
  reg clk;
  reg rst;
  wire halted;
  wire [11:0] counter;
  wire [11:0] address;
  wire [7:0] stored;
  wire store;
  integer clocks;
  integer differ;
  integer k;

  cpu #(
      .LATENCY(LATENCY)
  ) cpu (
      .clk        (clk),
      .rst        (rst),
      .halted     (halted),
      .counter    (counter),
      .instruction(program[counter]),
      .address    (address),
      .loaded     (memory[address]),
      .stored     (stored),
      .store      (store)
  );

  always @(posedge clk) if (store && !rst) memory[address] <= stored;

  initial begin
    $readmemh("program.hex", program);
    $readmemh("memory.hex", memory);
    $readmemh("expected.hex", expected);
    rst = 1'b1;
    clk = 1'b0;
    #1 clk = 1'b1;
    #1 clk = 1'b0;
    rst = 1'b0;
    #1;
    // A CPU that has lost its way into X never halts, so the clocks are counted.
    for (clocks = 0; halted !== 1'b1 && clocks < MOST_CLOCKS; clocks = clocks + 1) begin
      #1 clk = 1'b1;
      #1 clk = 1'b0;
    end
    differ = 0;
    for (k = 0; k < 4096; k = k + 1)
      if (memory[k] !== expected[k]) begin
        differ = differ + 1;
        if (differ <= 10) $display("memory[%h] is %h, expected %h", k[11:0], memory[k], expected[k]);
      end
    if (differ == 0 && halted === 1'b1) begin
      $display("PASS cpu: %0d clocks", clocks);
      $finish;
    end else begin
      $display("FAIL cpu: %0d bytes differ after %0d clocks", differ, clocks);
      $fatal(1);
      $finish;
    end
  end
endmodule
