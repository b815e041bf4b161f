// Types and a package with the names that a bench might use.
// options: --width 4 --flags none
// verdict: PASS
package memory;
  typedef logic [3:0] earlier;
endpackage
typedef logic [3:0] word;
typedef logic flags;
typedef int k;
module unit(input word a, b, input flags subtract, output word result);
  assign result = subtract ? a - b : a + b;
endmodule
