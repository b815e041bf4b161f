# Sourced by run: what it takes to check designs.

# Checking a design against compiling and running the emitted testbench by hand, on the same vectors.
bench_check() { # label, options ...
  label=$1
  shift
  "$sumwright" emit --name by_hand --overwrite "$@" >/dev/null
  side_by_side 5 "'$sumwright' check $* by_hand.v" \
    "iverilog -g2005 -o by_hand.vvp by_hand.v by_hand_tb.v && vvp -n by_hand.vvp"
  row "$label" "$(ratio "$first" "$second")" "at most 1.30"
}
bench_check "check : by hand, 8 bits, all inputs, operators" --detail operators
bench_check "check : by hand, 8 bits, all inputs, cells" --detail cells
bench_check "check : by hand, 12 bits, gates" --width 12 --detail gates
bench_check "check : by hand, 32 bits, 100000 vectors, operators" --width 32 --vectors 100000 \
  --detail operators

# A wrong design, whose mistake is looked for, too.
bench_wrong() { # label, the command for sed that makes it wrong, options ...
  label=$1 change=$2
  shift 2
  "$sumwright" emit --name by_hand --overwrite "$@" >/dev/null
  sed "$change" by_hand.v >wrong.v
  side_by_side 5 "'$sumwright' check $* wrong.v || :" \
    "iverilog -g2005 -o by_hand.vvp wrong.v by_hand_tb.v && vvp -n by_hand.vvp || :"
  row "$label" "$(ratio "$first" "$second")" "at most 1.30"
}
bench_wrong "check : by hand, without the first carry, 8 bits, operators" 's/ + {{WIDTH.*;/;/' \
  --detail operators
bench_wrong "check : by hand, without the first carry, 16 bits, operators" 's/ + {{WIDTH.*;/;/' \
  --width 16 --detail operators

# Marking forty designs, two at once against one after another, by the clock; on a machine that has
# two processors free.
mkdir class
for k in $(seq 40); do
  "$sumwright" emit --name "design$k" --width 8 --detail cells --out class >/dev/null
  rm "class/design${k}_tb.v"
done
by_clock() { { time -p "$@" >/dev/null; } 2>&1 | sed -n 's/^real *//p'; }
one=999 two=999
for round in 1 2 3; do
  one=$(less "$one" "$(by_clock "$sumwright" check --each --jobs 1 class)")
  two=$(less "$two" "$(by_clock "$sumwright" check --each --jobs 2 class)")
done
row "marking 40 designs: one at a time : two at once" "$(ratio "$one" "$two")" "at least 1.70"
side_by_side 1 "'$sumwright' check --each --jobs 2 class" "'$sumwright' check --each --jobs 1 class"
row "  processor time, two at once : one at a time" "$(ratio "$first" "$second")" "1.00"
