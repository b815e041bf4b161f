// options: --width 4 --flags none
// verdict: UNTESTED
// SystemVerilog sets an instance into another module.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
endmodule
module spy(input x); initial $display(x); endmodule
bind unit spy u(m);
