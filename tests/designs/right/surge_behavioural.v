// Surge of the gauge in one always block, as a beginner writes it.
// options: --width 8
// verdict: PASS
module surge (a, b, subtract, result, carry, overflow, zero, negative);
  input [7:0] a, b;
  input subtract;
  output [7:0] result;
  output carry, overflow, zero, negative;
  reg [7:0] result;
  reg carry, overflow, zero, negative;

  always @(a or b or subtract) begin
    if (subtract) begin
      {carry, result} = {1'b0, a} - {1'b0, b};
      carry = ~carry;  // no borrow
      overflow = (a[7] != b[7]) && (result[7] != a[7]);
    end else begin
      {carry, result} = a + b;
      overflow = (a[7] == b[7]) && (result[7] != a[7]);
    end
    zero = result == 0;
    negative = result[7];
  end
endmodule
