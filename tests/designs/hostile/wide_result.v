// A result wider than the word, by a macro and behind a long header.
// options: --width 4 --flags none
// verdict: UNTESTED port 'result' has 5 bits
`define TOP (2 + 2)
module unit(input [3:0] a, b, input subtract,
            output [`TOP:0] result /* a long remark, so that the header does not fit five hundred
            bytes: ........................................................................................
            ...............................................................................................
            ...............................................................................................
            ............................................................................................... */
            );
  assign result = {1'b1, subtract ? a - b : a + b};
endmodule
