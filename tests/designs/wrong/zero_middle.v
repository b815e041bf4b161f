// One bit of thirty-two is forgotten.
// options: --width 32 --flags zero
// verdict: WRONG zero-misses-bits
module zm(input [31:0] a, b, input sub, output [31:0] s, output z);
  assign s = sub ? a - b : a + b;
  assign z = ~|{s[31:18], s[16:0]};
endmodule
