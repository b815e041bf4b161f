// Escaped identifiers throughout.
// options: --width 6 --flags carry
// verdict: PASS
module \add/sub (input [5:0] \a , \b , input \sub , output [5:0] \sum , output \carry );
  assign {\carry , \sum } = \a + {1'b0, \b ^ {6{\sub }}} + \sub ;
endmodule
