// options: --width 4 --flags none
// verdict: UNTESTED prints more than
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  reg [4095:0] r = 0;
  initial begin
    $monitor("%b", r);
    repeat (300000) #1 r = ~r;
  end
endmodule
