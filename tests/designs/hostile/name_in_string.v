// options: --width 4 --flags none
// verdict: PASS
// A task's name in a string is a string.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  initial $display("$fopen %%vpi call \" $fwrite");
endmodule
