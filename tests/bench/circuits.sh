# Sourced by run: how good the circuits are, against general synthesis, and what it takes to write them.

# The one-line descriptions of an adder-subtractor that a synthesizer is given; XOR and add, and a
# choice of two sums.
xor_and_add() { # width
  cat <<V
module line(input m, input [$1-1:0] a, b, output [$1-1:0] result, output carry, overflow);
  wire [$1-1:0] y = b ^ {$1{m}};
  assign {carry, result} = a + y + m;
  assign overflow = (a[$1-1] == y[$1-1]) && (result[$1-1] != a[$1-1]);
endmodule
V
}
two_sums() { # width
  cat <<V
module unit(input m, input [$1-1:0] a, b, output [$1-1:0] result, output carry, overflow);
  assign {carry, result} = m ? a - b : a + b;
  assign overflow = (a[$1-1] == (b[$1-1] ^ m)) && (result[$1-1] != a[$1-1]);
endmodule
V
}

# Yosys with ABC, two-input gates of any kind; an inverter is none, as in ours.
abc_counts() { # width: sets gates and levels
  xor_and_add "$1" >line.v
  cat >wire.v <<'V'
module \$_NOT_ (input A, output Y);
  assign Y = A;
endmodule
V
  yosys -q -p "read_verilog line.v; synth -flatten -top line
    abc -g AND,NAND,OR,NOR,XOR,XNOR,ANDNOT,ORNOT; opt_clean; tee -q -o line.stat stat
    techmap -map wire.v; opt_clean; tee -q -o line.ltp ltp" >yosys.log
  gates=$(awk '/ \$_NOT_ / { next } / \$_[A-Z]+_ / { gates += $2 } END { print gates }' line.stat)
  levels=$(sed -n 's/.*length=\([0-9]*\)).*/\1/p' line.ltp)
}
ours() { # structure, width: sets our_gates and our_levels
  "$sumwright" emit --name unit --overwrite --vectors 0 --flags carry,overflow --detail gates \
    --structure "$1" --width "$2" >ours.log
  our_gates=$(sed -n 's/^circuit *\([0-9]*\).*/\1/p' ours.log)
  our_levels=$(sed -n 's/^circuit .* \([0-9]*\) levels.*/\1/p' ours.log)
}
for width in 4 8 16 32 64; do
  abc_counts $width
  ours fewest $width
  row "gates of fewest : Yosys with ABC, $width bits ($our_gates : $gates)" \
    "$(ratio "$our_gates" "$gates")" "at most 1.00"
  [ $width -ge 8 ] || continue
  ours ladner-fischer $width
  row "levels of ladner-fischer : Yosys with ABC, $width bits ($our_levels : $levels)" \
    "$(ratio "$our_levels" "$levels")" "below 1.00"
done

# On an FPGA: operators leave the carries to the synthesizer. A wrapper with registers all around and
# four pins; nextpnr's estimate is the best of five seeds for each, as placing is a game of chance.
wrapper() { # width, name of the line's pin
  cat <<V
module wrapper(input clk, in, load, output out);
  reg [2*$1:0] operands;
  reg [$1+1:0] held, leaving;
  wire [$1+1:0] made;
  assign out = leaving[0];
  unit unit(.$2(operands[2*$1]), .a(operands[2*$1-1:$1]), .b(operands[$1-1:0]),
    .result(made[$1-1:0]), .carry(made[$1]), .overflow(made[$1+1]));
  always @(posedge clk) begin
    operands <= {operands[2*$1-1:0], in};
    held <= made;
    leaving <= load ? held : leaving >> 1;
  end
endmodule
V
}
clock() { # a file with unit, width, name of the line's pin: prints the best estimate in MHz
  wrapper "$2" "$3" >wrapper.v
  yosys -q -p "read_verilog $1 wrapper.v; synth_ice40 -top wrapper -json wrapper.json" >yosys.log
  for seed in 1 2 3 4 5; do
    nextpnr-ice40 --hx1k --package tq144 --json wrapper.json --seed $seed 2>&1 |
      sed -n 's/.*Max frequency for clock.*: \([0-9.]*\) MHz.*/\1/p' | tail -n 1
  done | sort -n | tail -n 1
}
for width in 8 16 32 64; do
  "$sumwright" emit --name unit --overwrite --vectors 0 --flags carry,overflow --detail operators \
    --width $width >/dev/null
  yosys -q -p "read_verilog unit.v; synth_ice40 -top unit; tee -q -o luts stat" >yosys.log
  luts=$(awk '$1 == "SB_LUT4" { print $2 }' luts)
  row "LUT4 of operators on iCE40, $width bits" "$luts" "at most $((2 * width + 1))"
  two_sums $width >two.v
  row "  clock : that of m ? a - b : a + b" \
    "$(ratio "$(clock unit.v $width subtract)" "$(clock two.v $width m)")" "at least 1.00"
done

# A wide network against copying its bytes, and what memory it takes.
"$pace" write network.v --structure kogge-stone --width 1024
side_by_side 9 "'$pace' write other.v --structure kogge-stone --width 1024" "cp network.v copy.v"
row "Kogge-Stone of 1024 bits : copying its $(wc -c <network.v) bytes" "$(ratio "$first" "$second")" \
  "at most 10"
before=
for width in 512 1024 2048; do
  memory=$(memory_of "$("$measure" 1 "$pace" write network.v --structure kogge-stone --width $width)")
  gates=$(grep -c ' = .* [&|^] .*;' network.v)
  [ -z "$before" ] || row "  memory a gate, $width bits : half of that" \
    "$(awk "BEGIN { printf \"%.2f\", $memory / $gates / $before }")" "at most 1.10"
  before=$(awk "BEGIN { print $memory / $gates }")
done
