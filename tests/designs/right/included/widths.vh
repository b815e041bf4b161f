`define W 9
