// The borrow of a full subtractor with a and b exchanged.
// options: --width 6 --operations sub --subtract-carry borrow --flags carry
// verdict: WRONG operands-swapped
module full_sub(input a, b, bin, output d, bout);
  assign d = a ^ b ^ bin;
  assign bout = (a & ~b) | (~(a ^ b) & bin);
endmodule
module sub6(input [5:0] a, b, output [5:0] diff, output borrow);
  wire [6:0] w; assign w[0] = 0; assign borrow = w[6];
  full_sub fs[5:0] (a, b, w[5:0], diff, w[6:1]);
endmodule
