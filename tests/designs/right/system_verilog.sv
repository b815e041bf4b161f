// SystemVerilog by the file's name.
// options: --width 8 --flags carry
// verdict: PASS
module sv_unit(input logic [7:0] a, b, input logic m, output logic [7:0] sum, output logic cout);
  always_comb {cout, sum} = a + (b ^ {8{m}}) + m;
endmodule
