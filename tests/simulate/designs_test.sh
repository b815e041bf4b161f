#!/bin/sh
# Right and wrong designs in many hands: every right one passes, every wrong one is named exactly.
set -eu
. "$SOURCE/tests/designs/check_all.sh"
started=$(date +%s)
check_all "$SOURCE"/tests/designs/right/* "$SOURCE"/tests/designs/wrong/*

right=$(grep -c '^right .*: PASS' results) || :
wrong=$(grep -c '^right .*: WRONG' results) || :
[ $((right + wrong)) -ge 60 ] || { echo "wrong: only $((right + wrong)) designs"; exit 1; }
for name in first-carry-missing operand-not-inverted operands-swapped control-reversed \
  carry-sense-reversed overflow-repeats-carry overflow-forgets-subtraction overflow-inverted \
  zero-misses-bits negative-wrong bits-reversed carry-broken bit-stuck undriven width-short late \
  unexplained; do
  count=$(grep -c "WRONG.* $name" results) || :
  [ "$count" -ge 3 ] || { echo "wrong: only $count designs with $name"; exit 1; }
done
echo "$right right and $wrong wrong designs in $(($(date +%s) - started)) s"
