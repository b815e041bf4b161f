// The arguments of a function are eight bits wide.
// options: --width 16 --flags none
// verdict: WRONG width-short
module w(input [15:0] a, b, input m, output [15:0] s);
  function [15:0] addsub; input [7:0] x, y; input k; addsub = k ? x - y : x + y; endfunction
  assign s = addsub(a, b, m);
endmodule
