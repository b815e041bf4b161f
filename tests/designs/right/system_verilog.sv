// SystemVerilog by the file's name.
// options: --width 9 --flags carry
// verdict: PASS
module sv_unit(input logic [8:0] a, b, input logic m, output logic [8:0] sum, output logic cout);
  always_comb {cout, sum} = a + (b ^ {9{m}}) + m;
endmodule
