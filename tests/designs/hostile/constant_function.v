// options: --width 4 --flags none
// verdict: UNTESTED the compiler is not done
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  function integer forever_f(input integer n);
    begin
      forever_f = 0;
      while (n > 0) forever_f = forever_f + 1;
    end
  endfunction
  localparam L = forever_f(1);
  wire [L:0] w = L;
endmodule
