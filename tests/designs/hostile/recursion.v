// options: --width 4 --flags none
// verdict: UNTESTED
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  task automatic again;
    input integer n;
    begin
      again(n + 1);
      again(n + 2);
    end
  endtask
  initial again(0);
endmodule
