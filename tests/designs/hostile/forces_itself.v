// options: --width 4 --flags none
// verdict: WRONG undriven
// It forces its own ports, the bench's wires with them.
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  initial begin
    force a = 0;
    force b = 0;
    force s = 4'bx;
  end
endmodule
