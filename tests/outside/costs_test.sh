#!/bin/sh
# Every number in the tables of costs in docs/structures.md, recounted: gates and levels by Yosys;
# fan-out, prefix cells, kinds of gates, inverters and transistors line by line from the emitted
# Verilog; bounds from their formulas; and the marks from the numbers. That the tables are what the
# program prints today is the business of tests/unit/docs_test.sh.
set -eu
. "$SOURCE/tests/outside/counts_lib.sh"

wrong() {
  echo "wrong: $1"
  exit 1
}

# The block of the page, and the options that describe its unit.
awk '/^```/ { inside = 0 } /^\$ sumwright cost / { inside = 1 } inside' "$SOURCE/docs/structures.md" >block
unit=$(sed -n '1s/^\$ sumwright cost \(.*\) --widths.*/\1/p' block)
[ "$unit" = "--operations add,sub --flags carry,overflow" ] || wrong "the bounds here are for another unit than $unit"

# first: WIDTH STRUCTURE GATES LEVELS FAN_OUT CELLS LEAST MARK...
# second: WIDTH STRUCTURE AND OR XOR NAND NOR XNOR INVERTERS TRANSISTORS
# third: WIDTH STRUCTURE NANDS LEVELS FAN_OUT NORS LEVELS FAN_OUT
awk '
  /^[0-9]+ bits: / { width = $1 }
  /fewer than [0-9]+ gates: 5n - 3/ { sub(/.*fewer than /, ""); print width, "gates", $1 >"bounds"; next }
  /fewer than [0-9]+ levels: / { sub(/.*fewer than /, ""); print width, "levels", $1, $3 >"bounds"; next }
  /^structure/ { file = $2 == "AND" ? "second" : $2 == "NANDs" ? "third" : "first"; reading = 1; next }
  /^$/ { reading = 0 }
  reading { print width, $0 >file }' block
rows=$(wc -l <first)
[ "$rows" -gt 40 ] && [ "$(wc -l <second)" -eq "$rows" ] && [ "$(wc -l <third)" -eq "$rows" ] ||
  wrong "few rows are read"

file_of() { # width structure
  echo "$2_$1" | tr =- __
}

# ---- gates and levels, by Yosys -----------------------------------------------------------------

while read -r width structure rest; do
  # shellcheck disable=SC2086 # a list of options
  emit_counted "$(file_of "$width" "$structure")" $unit --detail gates --structure "$structure" \
    --width "$width" </dev/null
done <first
count_all
while read -r width structure gates levels rest; do
  found=$(counted "$(file_of "$width" "$structure")")
  [ "$found" = "$gates gates, $levels levels" ] ||
    wrong "$structure at $width bits: $gates gates, $levels levels on the page, Yosys counts $found"
done <first

# ---- bounds and marks ---------------------------------------------------------------------------

# 5n - 3 gates (N. P. Red'kin, 1981, for the adder in it); the sign depends on 2n + 1 pins, and a
# level of two-input gates joins two.
while read -r width what bound pins; do
  needed=0
  while [ $((1 << needed)) -lt $((2 * width + 1)) ]; do needed=$((needed + 1)); done
  case $what in
    gates) [ "$bound" -eq $((5 * width - 3)) ] || wrong "the bound on gates at $width bits" ;;
    levels) [ "$bound $pins" = "$needed $((2 * width + 1))" ] || wrong "the bound on levels at $width bits" ;;
  esac
done <bounds
[ "$(wc -l <bounds)" -eq $((2 * $(cut -d ' ' -f 1 first | sort -u | wc -l))) ] || wrong "few bounds"

# The smallest has the fewest gates, and of those the fewest levels; the shallowest the reverse; the
# front is what nothing beats.
awk '
  { width[NR] = $1; name[NR] = $2; g[NR] = $3; l[NR] = $4; said[NR] = $8 " " $9 " " $10 }
  function beats(a, b) {
    return width[a] == width[b] && g[a] <= g[b] && l[a] <= l[b] && (g[a] < g[b] || l[a] < l[b])
  }
  END {
    for (k = 1; k <= NR; k++) {
      front = least = lowest = 1
      for (other = 1; other <= NR; other++) {
        if (beats(other, k)) front = 0
        if (width[other] == width[k] && g[other] < g[k]) least = 0
        if (width[other] == width[k] && l[other] < l[k]) lowest = 0
      }
      mark = !front ? "" : least && lowest ? "*^ smallest, shallowest" : least ? "* smallest" : lowest ? "^ shallowest" : "+ front"
      sub(/ +$/, "", said[k])
      if (said[k] != mark) { print name[k], "at", width[k], "bits is marked", said[k]; bad = 1 }
    }
    exit bad
  }' first || wrong "marks"

# ---- the rest, from the text --------------------------------------------------------------------

# A gate is a line: wire NAME = X & Y; or assign PIN = ~(X ^ Y); an input ~X is inverted. A prefix
# cell hands a carry on by one gate of that name, under the heading of its level; a network of n
# columns has no fewer than 2n - 2 cells less its levels (M. Snir, 1986), nor than n - 1. Transistors:
# common practice, no source.
from_text() { # file columns, 1 for a prefix network
  awk -v columns="$2" -v network="$3" '
    function read(x) {
      gsub(/[();]/, "", x)
      if (sub(/^~/, "", x)) inverted[x] = 1
      readers[x]++
    }
    /Carries, level [0-9]+$/ { depth = $NF }
    /^  (wire|assign) .* = .* [&|^] .*;$/ {
      split($0, side, / = /)
      split(side[1], left, " ")
      negated = sub(/^~\(/, "", side[2])
      split(side[2], part, / [&|^] /)
      kind = side[2] ~ / & / ? "and" : side[2] ~ / \| / ? "or" : "xor"
      count[(negated ? "n" : "") kind]++
      read(part[1])
      read(part[2])
      gates[left[2]] = 1
      if (left[2] ~ /^handed_on_/) cells++
      if (left[1] == "assign") readers[left[2]]++
      next
    }
    /^  assign .* = / { sub(/;.*/, ""); sub(/.* = /, ""); read($0) }
    END {
      for (name in gates) if (readers[name] > most) most = readers[name]
      for (name in inverted) inverters++
      transistors = 6 * (count["and"] + count["or"]) + 10 * (count["xor"] + count["nxor"])
      transistors += 4 * (count["nand"] + count["nor"]) + 2 * inverters
      least = depth < columns - 1 ? 2 * columns - 2 - depth : columns - 1
      print most, network ? cells : "-", network ? least : "-", count["and"] + 0, count["or"] + 0,
        count["xor"] + 0, count["nand"] + 0, count["nor"] + 0, count["nxor"] + 0, inverters + 0,
        transistors
    }' "$1"
}
paste -d ' ' first second >both
sed 's/[*^+].*[a-z] \([0-9]\)/\1/' both | while read -r width structure gates levels fan cells least \
  width_again structure_again figures; do
  [ "$width $structure" = "$width_again $structure_again" ] || wrong "the two tables have other rows"
  case $structure in
    ripple | fewest | skip | select | lookahead) network=0 ;;
    *) network=1 ;;
  esac
  found=$(from_text "$(file_of "$width" "$structure").v" "$width" $network)
  figures="$fan $cells $least $(echo $figures)"
  [ "$found" = "$figures" ] || wrong "$structure at $width bits: $figures on the page, $found in the text"
done
# ---- gates of one kind ---------------------------------------------------------------------------

# An instance is a line, nand (OUTPUT, INPUT, INPUT); wires drive readers and pins.
from_instances() { # file primitive
  awk -v primitive="$2" '
    function level(x) { return x in levels ? levels[x] : 0 }
    $1 == primitive {
      gsub(/[(),;]/, "")
      gates++
      levels[$2] = 1 + (level($3) > level($4) ? level($3) : level($4))
      readers[$3]++
      readers[$4]++
      if ($2 in pin || $2 ~ /^result\[/) readers[$2]++
      next
    }
    /^    output / { gsub(/,/, ""); pin[$NF] = 1 }
    /^  assign / { gsub(/;/, ""); readers[$4]++; deepest = level($4) > deepest ? level($4) : deepest }
    END {
      for (name in levels) {
        if (name in pin || name ~ /^result\[/) deepest = levels[name] > deepest ? levels[name] : deepest
        if (readers[name] > most) most = readers[name]
      }
      print gates, deepest, most
    }' "$1"
}
while read -r width structure nands; do
  found=
  for kind in nand nor; do
    # shellcheck disable=SC2086 # a list of options
    "$SUMWRIGHT" emit --name only $unit --vectors 0 --detail $kind --structure "$structure" \
      --width "$width" --overwrite >emit.log 2>&1 </dev/null || { cat emit.log; wrong "no $kind form"; }
    found="$found $(from_instances only.v $kind)"
  done
  [ "$found" = " $(echo $nands)" ] ||
    wrong "$structure at $width bits: $nands on the page, $found in the text"
done <third

echo "$rows circuits are as large, deep and wide as docs/structures.md says"
