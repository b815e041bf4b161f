  // What is wrong with a stranger, by its parameters; each of them includes this file. KIND 0 is
  // nothing at all.
  localparam STUCK_0    = 1;   // a bit of a bus, AT
  localparam STUCK_1    = 2;
  localparam OPEN       = 3;
  localparam SWAPPED    = 4;   // two bits of a bus, AT and OTHER
  localparam SHORT_AND  = 5;   // the lower level wins
  localparam SHORT_OR   = 6;   // the higher one does
  localparam FROM_ABOVE = 7;   // bit AT gets what bit AT + 1 should, the top bit what bit 0 should
  localparam FROM_BELOW = 8;
  localparam TURN_UP    = 9;   // the whole bus is off by one
  localparam TURN_DOWN  = 10;
  localparam REVERSED   = 11;
  localparam CROSSED    = 12;  // the carries that the sums of columns AT and AT + 1 read
  localparam CELL       = 13;  // the cell of column AT has the table VALUE
  localparam GROUP      = 14;  // the cell that joins groups at column AT, level OTHER: row
                               // VALUE / 2 of its table, output VALUE % 2
  localparam LATE       = 15;  // a loop over the columns starts at column 1,
  localparam EARLY      = 16;  // or ends before the last one

  localparam BUS_A      = 1;
  localparam BUS_B      = 2;
  localparam BUS_RESULT = 3;

  // A bus as it arrives.
  function [WIDTH-1:0] wired(input [WIDTH-1:0] word, input integer bus);
    integer i;
    begin
      wired = word;
      if (bus == BUS)
        case (KIND)
          STUCK_0: wired[AT] = 1'b0;
          STUCK_1: wired[AT] = 1'b1;
          OPEN: wired[AT] = 1'bz;
          SWAPPED: begin
            wired[AT] = word[OTHER];
            wired[OTHER] = word[AT];
          end
          SHORT_AND: begin
            wired[AT] = word[AT] & word[OTHER];
            wired[OTHER] = wired[AT];
          end
          SHORT_OR: begin
            wired[AT] = word[AT] | word[OTHER];
            wired[OTHER] = wired[AT];
          end
          FROM_ABOVE: wired[AT] = word[(AT+1)%WIDTH];
          FROM_BELOW: wired[AT] = word[(AT+WIDTH-1)%WIDTH];
          TURN_UP: wired = {word, word[WIDTH-1]};
          TURN_DOWN: wired = {word[0], word} >> 1;
          REVERSED: for (i = 0; i < WIDTH; i = i + 1) wired[i] = word[WIDTH-1-i];
          LATE: wired[0] = 1'b0;
          EARLY: wired[WIDTH-1] = 1'b0;
          default: ;
        endcase
    end
  endfunction

  // A full adder, {carry, sum}: two bits a row of the table, the rows in the order of {c, y, x}.
  function [1:0] add_bits(input x, input y, input c, input integer column);
    reg [15:0] rows;
    begin
      rows = KIND == CELL && AT == column ? VALUE : 16'he994;
      add_bits = rows >> {c, y, x, 1'b0};
    end
  endfunction

  // The carries as the sums read them.
  function [WIDTH:0] crossed(input [WIDTH:0] carry);
    begin
      crossed = carry;
      if (KIND == CROSSED) begin
        crossed[AT] = carry[AT+1];
        crossed[AT+1] = carry[AT];
      end
    end
  endfunction

  // Joins two neighbouring groups of columns: does the pair generate a carry, {1, 0}, or pass it on,
  // {0, 1}? high and low are such answers themselves.
  function [1:0] join_groups(input [1:0] high, input [1:0] low, input integer column,
                             input integer level);
    begin
      join_groups = {high[1] | (high[0] & low[1]), high[0] & low[0]};
      if (KIND == GROUP && AT == column && OTHER == level && {high, low} == VALUE / 2)
        join_groups[VALUE%2] = ~join_groups[VALUE%2];
    end
  endfunction
