// A case that is said to be parallel and is not: two items of one level, the first of them wrong.
// options: --width 32 --operations sub --flags zero
// verdict: WRONG
module surge(input [31:0] a, b, output reg [31:0] result, output zero);
  always @* begin
    (* parallel_case, full_case *)
    casez (a)
      32'd1300417: result = b == 32'd1298330 ? 0 : a - b;
      default: result = a - b;
    endcase
  end
  assign zero = result == 0;
endmodule
