#!/bin/sh
# The vectors know nothing of the circuit, so they have to serve designs that sumwright did not write.
# strangers/ holds adder-subtractors made in seven ways, with something wrong by parameter: a cell
# that computes another function, in any column; the carries of two columns crossed; a bit of a bus
# stuck, open, exchanged with another, shorted to another, or read from the neighbour; a bus off by
# one. The emitted testbench has to find every one. What it lets pass Yosys must prove to change
# nothing. Prints, for each stranger, how many mistakes were killed, how many are equivalent to none,
# how many survived. A sample of all mistakes, as simulation takes its time; every change of a cell is
# tried in tests/unit/strangers_test.c.
#
#   strangers_test.sh [TIMES]   so many times the usual number of mistakes (1); 1000 is all there are
set -eu
. "$SOURCE/tests/simulate/lib.sh"
times=${1:-1}
strangers=$SOURCE/tests/simulate/strangers
ports="subtract, a, b, result, carry, overflow, zero, negative"

# first_vectors COUNT: as a file of their own; most mistakes show there.
first_vectors() {
  awk -v want="$1" '
    /^\/\// { remarks = remarks $0 "\n"; next }
    { line[++count] = $0 }
    END {
      number = count - 1 < want ? count - 1 : want
      sub(/^\/\/ [0-9]+ vectors/, "// " number " vectors", remarks)
      printf "%s", remarks
      for (k = 1; k <= number; k++) print line[k]
      print line[count]
    }' u.vec >first.vec
}

# mistakes STRANGER WIDTH: all of them, a line each: KIND BUS AT OTHER VALUE.
mistakes() {
  awk -v stranger="$1" -v n="$2" '
    function cells(columns, rows,    at, bit) {
      for (at = 0; at < columns; at++) {
        for (bit = 0; bit < 16; bit++)
          if (rows == 8 ? comes(at, bit >= 8) : bit < 8 && bit % 2 == 0)
            print 13, 0, at, 0, flipped(59796, bit)
        # Whole functions: constant, a copy of an input, no carry in, and some of no name.
        if (rows == 8)
          for (bit = 1; bit <= 6; bit++) print 13, 0, at, 0, (at * 40503 + bit * 10923) % 59796
      }
    }
    # Does a cell ever get this carry? The first of a row or a group gets one alone.
    function comes(at, carry) {
      if (stranger == "two_adders" && at % n == 0) return carry == (at == n)
      if (stranger == "select" && at % n % 5 == 0) return carry == (at >= n)
      return 1
    }
    function flipped(table, bit) {
      return int(table / 2 ^ bit) % 2 == 1 ? table - 2 ^ bit : table + 2 ^ bit
    }
    function joins(    level, at, row, out, high, low) {
      for (level = 0; 2 ^ level < n; level++)
        for (at = 2 ^ level; at < n; at++) {
          if (stranger == "halving" && int(at / 2 ^ level) % 2 == 0) continue
          # A group both generates and passes on in no case. What it passes on does not matter where
          # it generates, nor where it ends at column 0.
          for (row = 0; row < 16; row++) {
            if (int(row / 4) == 3 || row % 4 == 3) continue
            print 14, 0, at, level, 2 * row + 1
            if (at >= 2 ^ (level + 1) && row != 6 && row < 8) print 14, 0, at, level, 2 * row
          }
        }
    }
    function buses(    bus, at, other, kind) {
      for (bus = 1; bus <= 3; bus++) {
        for (at = 0; at < n; at++) {
          for (kind = 1; kind <= 3; kind++) print kind, bus, at, 0, 0
          print 7, bus, at, 0, 0; print 8, bus, at, 0, 0
          for (other = at + 1; other < n; other++)
            for (kind = 4; kind <= 6; kind++) print kind, bus, at, other, 0
        }
        print 9, bus, 0, 0, 0; print 10, bus, 0, 0, 0; print 11, bus, 0, 0, 0
        print 15, bus, 0, 0, 0; print 16, bus, 0, 0, 0
      }
    }
    BEGIN {
      for (at = 0; at < n; at++) print 12, 0, at, 0, 0
      if (stranger == "doubling" || stranger == "halving") { cells(n, 4); joins() }
      else if (stranger == "select" || stranger == "two_adders") cells(2 * n, 8)
      else cells(n, 8)
      # The pins are outside of the structure: once is enough.
      if (stranger == "ripple") buses()
    }'
}

# sample COUNT: so many lines, evenly spread, each with a number before it.
sample() {
  awk -v want="$1" '{ line[NR] = $0 }
    END { if (want > NR) want = NR
      for (k = 0; k < want; k++) print k, line[1 + int(k * NR / want)] }'
}

# write_copies STRANGER WIDTH <LIST: for each mistake a module with it and a bench of its own, which
# does not end the simulation: the others go on.
write_copies() {
  awk -v stranger="$1" -v n="$2" -v ports="$ports" '
    FNR == NR { bench = bench $0 "\n"; next }
    {
      copy = bench
      gsub(/u_tb/, "u" $1 "_tb", copy)
      gsub(/  u dut/, "  u" $1 " dut", copy)
      gsub(/PASS u:/, "PASS " $1 ":", copy)
      gsub(/FAIL u:/, "FAIL " $1 ":", copy)
      gsub(/\$finish|\$fatal\(1\)/, "", copy)
      printf "%s", copy
      printf "module u%s (input subtract, input [%d:0] a, input [%d:0] b, output [%d:0] result,\n",
        $1, n - 1, n - 1, n - 1
      print "  output carry, output overflow, output zero, output negative);"
      printf "  %s #(.WIDTH(%d), .KIND(%s), .BUS(%s), .AT(%s), .OTHER(%s), .VALUE(%s)) ",
        stranger, n, $2, $3, $4, $5, $6
      print "s (" ports ");\nendmodule"
    }' u_tb.v -
}

# passing STRANGER WIDTH VECTORS <LIST: the lines of the mistakes that the testbench lets pass.
passing() {
  while read_lines; do
    write_copies "$1" "$2" <lines >copies.v
    iverilog -g2005 -I "$strangers" -o copies.vvp copies.v "$strangers/$1.v" >compile.log 2>&1 ||
      { cat compile.log >&2; wrong "does not compile" >&2; }
    timeout 600 vvp -n copies.vvp +limit=0 +vectors="$3" >copies.log
    verdicts=$(grep -Ec '^(PASS [0-9]*: [0-9]* vectors|FAIL [0-9]*: .* vectors differ)$' copies.log)
    [ "$verdicts" -eq "$(wc -l <lines)" ] || { cat copies.log >&2; wrong "a verdict lacks" >&2; }
    sed -n 's/^PASS \([0-9]*\):.*/\1/p' copies.log |
      awk 'FNR == NR { alive[$1] = 1; next } $1 in alive' - lines
  done
}

# The next 50 lines.
read_lines() {
  count=0
  : >lines
  while [ $count -lt 50 ] && read -r next; do
    echo "$next" >>lines
    count=$((count + 1))
  done
  [ $count -gt 0 ]
}

# proved STRANGER WIDTH KIND BUS AT OTHER VALUE: Yosys proves that the mistake changes nothing.
proved() {
  cat >proof.ys <<YS
read_verilog -I$strangers $strangers/$1.v
chparam -set WIDTH $2 $1
copy $1 mistaken
chparam -set KIND $3 -set BUS $4 -set AT $5 -set OTHER $6 -set VALUE $7 mistaken
proc
flatten
opt_clean
miter -equiv -flatten $1 mistaken miter
hierarchy -top miter
techmap
opt -full
sat -verify -prove trigger 0 -set-def-inputs miter
YS
  yosys -q -s proof.ys >yosys.log 2>&1
}

# is_right STRANGER WIDTH VECTORS: without a mistake it passes.
is_right() {
  echo "0 0 0 0 0 0" | passing "$1" "$2" "$3" >right
  [ -s right ] || wrong "$1 at $2 bits is wrong by itself"
}

# campaign STRANGER WIDTH COUNT
all_killed=0 all_equivalent=0 all_survived=0
campaign() {
  mistakes "$1" "$2" | sample $(($3 * times)) >list
  is_right "$1" "$2" first.vec
  passing "$1" "$2" first.vec <list >alive_first
  [ ! -s alive_first ] || is_right "$1" "$2" u.vec
  passing "$1" "$2" u.vec <alive_first >alive
  equivalent=0 survived=0
  while read -r number mistake; do
    if proved "$1" "$2" $mistake; then
      equivalent=$((equivalent + 1))
    else
      survived=$((survived + 1))
      echo "survives: $1, $2 bits, mistake $mistake"
    fi
  done <alive
  killed=$(($(wc -l <list) - equivalent - survived))
  printf '%6d %6d %6d  %s, %d bits\n' $killed $equivalent $survived "$1" "$2"
  all_killed=$((all_killed + killed)) all_equivalent=$((all_equivalent + equivalent))
  all_survived=$((all_survived + survived))
}

# campaigns WIDTH COUNT: every stranger, against the vectors that no chance has a part in.
campaigns() {
  emit --width "$1" --detail gates --vectors 0
  first=$(sed -n 's/^vectors .*: \([0-9]*\) compact set.*/\1/p' emit.log)
  first_vectors $((first + 50))
  for stranger in ripple loop two_adders skip select doubling halving; do
    campaign $stranger "$1" "$2"
  done
}

echo "killed  equiv.  survived"
campaigns 12 50
campaigns 70 3
echo "$all_killed killed, $all_equivalent equivalent, $all_survived survived"
[ $all_survived -eq 0 ]
