// The student's own testbench is in the file; it is no candidate.
// options: --width 4 --operations sub --flags none
// verdict: PASS
module diff4(input [3:0] a, b, output [3:0] d);
  assign d = a - b;
endmodule
module diff4_tb;
  reg [3:0] a, b;
  wire [3:0] d;
  diff4 dut(.a(a), .b(b), .d(d));
  initial begin
    $dumpfile("diff4.vcd");
    $dumpvars;
    a = 9; b = 4;
    #1 $display("PASS %d", d);
    $finish;
  end
endmodule
