#!/bin/sh
# Right and wrong designs in many hands: every right one passes, every wrong one is named exactly.
# The first lines of a design say how it is checked and what must come out:
#   // options: ...      of check
#   // verdict: PASS, or WRONG and the identifiers, or UNTESTED and words of the reason
# A design is a file, or a folder whose files make one design.
set -eu
designs=$SOURCE/tests/designs
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

# check_one DESIGN: a line that says right or wrong, and of a wrong one what was printed.
cat >check_one <<'END'
design=$1
files=$design
[ ! -d "$design" ] || files=$(ls "$design"/*.v)
header=$(sed -n '/^\/\/ [a-z]*: /p' $files)
options=$(echo "$header" | sed -n 's|^// options: ||p')
expected=$(echo "$header" | sed -n 's|^// verdict: ||p')
log=$(mktemp ./log.XXXXXX)
status=0
"$SUMWRIGHT" check $options $files >"$log" 2>&1 || status=$?
found=$(sed -n '1s/ .*//p' "$log")
case $found in
  PASS) wanted=0 ;;
  WRONG) wanted=1 ;;
  *) wanted=3 ;;
esac
names=$(sed -n '/^  nearest: /d; s/^  \([a-z]*\(-[a-z]*\)*\): .*/\1/p' "$log" | tr '\n' ' ')
[ "$found" != UNTESTED ] || names=$(sed -n '1s/^[A-Z]* [^ ]*: //p' "$log")
found=$(echo "$found $names" | sed 's/ *$//')
right=no
case $found in
  "$expected") right=yes ;;
  UNTESTED*"${expected#UNTESTED }"*) [ "${expected%% *}" != UNTESTED ] || right=yes ;;
esac
if [ $right = yes ] && [ $status -eq $wanted ]; then
  echo "right $design: $found"
else
  echo "wrong $design: $found, status $status, and should be $expected"
  cat "$log"
fi
END

[ $# -gt 0 ] || set -- "$designs"/right/* "$designs"/wrong/*
started=$(date +%s)
printf '%s\n' "$@" | xargs -P 2 -I NAME sh check_one NAME >results
! grep -A 40 '^wrong ' results || exit 1

right=$(grep -c '^right .*: PASS' results) || :
wrong=$(grep -c '^right .*: WRONG' results) || :
[ $# -lt 60 ] || {
  [ $((right + wrong)) -ge 60 ] || { echo "wrong: only $((right + wrong)) designs"; exit 1; }
  for name in first-carry-missing operand-not-inverted operands-swapped control-reversed \
    carry-sense-reversed overflow-repeats-carry overflow-forgets-subtraction overflow-inverted \
    zero-misses-bits negative-wrong bits-reversed carry-broken bit-stuck undriven width-short late \
    unexplained; do
    count=$(grep -c "WRONG.* $name" results) || :
    [ "$count" -ge 3 ] || { echo "wrong: only $count designs with $name"; exit 1; }
  done
}
echo "$right right and $wrong wrong designs in $(($(date +%s) - started)) s"
