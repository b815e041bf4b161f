// options: --width 4 --flags none
// verdict: WRONG first-carry-missing
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = a + (b ^ {4{m}});
  initial $display("PASS unit: 512 vectors\n");
endmodule
