// Registers at both ends.
// options: --width 6 --registers both --reset async --flags overflow
// verdict: WRONG overflow-forgets-subtraction
module x(input clk, rst, input [5:0] a, b, input m, output reg [5:0] s, output reg v);
  reg [5:0] ra, rb; reg rm; wire [5:0] t = rm ? ra - rb : ra + rb;
  always @(posedge clk or posedge rst)
    if (rst) begin ra <= 0; rb <= 0; rm <= 0; s <= 0; v <= 0; end
    else begin ra <= a; rb <= b; rm <= m; s <= t; v <= ra[5] == rb[5] && t[5] != ra[5]; end
endmodule
