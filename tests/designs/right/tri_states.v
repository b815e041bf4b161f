// Sum and difference share a bus through tri-state buffers.
// options: --width 4 --flags none
// verdict: PASS
module tri4(input [3:0] a, b, input m, output [3:0] s);
  tri [3:0] bus;
  wire [3:0] sum = a + b, dif = a - b;
  bufif1 on1[3:0] (bus, dif, m);
  bufif0 on0[3:0] (bus, sum, m);
  assign s = bus;
endmodule
