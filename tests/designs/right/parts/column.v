module column(input x, y, ci, output s, co);
  wire p, g1, g2;
  half h1(x, y, p, g1);
  half h2(p, ci, s, g2);
  or (co, g1, g2);
endmodule
