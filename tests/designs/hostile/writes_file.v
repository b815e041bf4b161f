// options: --width 4 --flags none
// verdict: UNTESTED it calls '$f
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
  integer file;
  initial begin
    file = $fopen("seen", "w");
    $fwrite(file, "0");
  end
endmodule
