// The sum passes through a wire of eight bits.
// options: --width 12 --flags none
// verdict: WRONG width-short
module narrow(input [11:0] a, b, input m, output [11:0] s);
  wire [7:0] t = m ? a - b : a + b;
  assign s = t;
endmodule
