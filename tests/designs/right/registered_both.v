// Registers at both ends, asynchronous reset, clock enable.
// options: --width 16 --registers both --reset async --enable --flags overflow,negative
// verdict: PASS
module surge_pipeline (
    input             clock, reset, ce,
    input      [15:0] x, y,
    input             mode,
    output reg [15:0] z,
    output reg        ov, neg
);
  reg [15:0] xr, yr;
  reg mr;
  wire [15:0] yy = mr ? ~yr : yr;
  wire [15:0] t = xr + yy + mr;
  always @(posedge clock or posedge reset)
    if (reset) begin
      xr <= 0; yr <= 0; mr <= 0; z <= 0; ov <= 0; neg <= 0;
    end else if (ce) begin
      xr <= x; yr <= y; mr <= mode;
      z <= t; neg <= t[15];
      ov <= (xr[15] ~^ yy[15]) & (t[15] ^ xr[15]);
    end
endmodule
