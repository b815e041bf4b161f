// Two positive levels and a negative result, whatever was asked for.
// options: --width 6 --flags overflow
// verdict: WRONG overflow-forgets-subtraction
module x(input signed [5:0] a, b, input m, output reg signed [5:0] s, output reg v);
  always @* begin
    if (m) s = a - b; else s = a + b;
    if (a > 0 && b > 0 && s < 0) v = 1;
    else if (a < 0 && b < 0 && s >= 0) v = 1;
    else v = 0;
  end
endmodule
