// Request pins, one for each operation.
// options: --width 6 --operations add,sub,neg --control one-hot --flags none
// verdict: PASS
module requests(input [5:0] a, b, input add, sub, neg, output [5:0] res);
  assign res = ({6{add}} & (a + b)) | ({6{sub}} & (a - b)) | ({6{neg}} & (-a));
endmodule
