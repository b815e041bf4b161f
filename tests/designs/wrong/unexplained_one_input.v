// Wrong for one input of 262144, which every input tried finds.
// options: --width 8 --operations adc,sbc --flags none
// verdict: WRONG unexplained
module unit(input [7:0] a, b, input cin, input m, output [7:0] s);
  wire odd = a == 8'd77 && b == 8'd203 && cin && m;
  assign s = (m ? a + ~b + cin : a + b + cin) ^ odd;
endmodule
