// A user-defined primitive chooses b or its complement.
// options: --width 4
// verdict: PASS
primitive mux2(o, s, x, y);
  output o; input s, x, y;
  table
  // s x y : o
     0 0 ? : 0;
     0 1 ? : 1;
     1 ? 0 : 0;
     1 ? 1 : 1;
     x 0 0 : 0;
     x 1 1 : 1;
  endtable
endprimitive
module four_bit_adder_subtractor(input [3:0] A, B, input Sub, output [3:0] Result, output Carry, Overflow, Zero, Negative);
  wire [3:0] nb, y; wire c1, c2, c3;
  not n0(nb[0], B[0]), n1(nb[1], B[1]), n2(nb[2], B[2]), n3(nb[3], B[3]);
  mux2 m0(y[0], Sub, B[0], nb[0]), m1(y[1], Sub, B[1], nb[1]), m2(y[2], Sub, B[2], nb[2]), m3(y[3], Sub, B[3], nb[3]);
  FullAdder fa0(.A(A[0]), .B(y[0]), .Cin(Sub), .Sum(Result[0]), .Cout(c1));
  FullAdder fa1(.A(A[1]), .B(y[1]), .Cin(c1), .Sum(Result[1]), .Cout(c2));
  FullAdder fa2(.A(A[2]), .B(y[2]), .Cin(c2), .Sum(Result[2]), .Cout(c3));
  FullAdder fa3(.A(A[3]), .B(y[3]), .Cin(c3), .Sum(Result[3]), .Cout(Carry));
  xor ov(Overflow, c3, Carry);
  nor zr(Zero, Result[0], Result[1], Result[2], Result[3]);
  assign Negative = Result[3];
endmodule
module FullAdder(input A, input B, input Cin, output Sum, output Cout);
  wire w1, w2, w3;
  xor (w1, A, B); xor (Sum, w1, Cin); and (w2, A, B); and (w3, w1, Cin); or (Cout, w2, w3);
endmodule
