#!/bin/sh
# The carry structures in cells: simulated, without a word from the compiler or Verilator, at widths
# where groups and networks are whole and where they are cut; as many instances as the structure has
# cells, no two of one name. tests/outside/structures_test.sh proves them at more widths.
set -eu
. "$SOURCE/tests/simulate/lib.sh"

lints() {
  verilator --lint-only -Wall u.v >lint.log 2>&1 || { cat lint.log; wrong "Verilator complains"; }
  [ ! -s lint.log ] || { cat lint.log; wrong "Verilator warns"; }
}

instances() { # PATTERN: how many there are of modules whose names match
  grep -c "^  u_$1 .*($" u.v || :
}

# has PATTERN COUNT
has() {
  [ "$(instances "$1")" -eq "$2" ] || wrong "$(instances "$1") instances of u_$1 rather than $2"
}

turn=0
for width in 1 6 11 33; do
  for structure in sklansky kogge-stone brent-kung han-carlson ladner-fischer depth=7 skip select \
    lookahead; do
    turn=$((turn + 1))
    case $((turn % 7)) in
      0) choice="add,sub --flags carry,overflow,zero,negative" ;;
      1) choice="adc,sbc --subtract-carry borrow --flags none" ;;
      2) choice="add,adc,sub,sbc,rsb,inc,dec,neg,pass --overflow saturate-signed" ;;
      3) choice="sub --flags less-unsigned,parity --overflow saturate-unsigned" ;;
      4) choice="add,sub,pass --control one-hot --subtract-carry borrow --flags carry,less-signed --registers output" ;;
      5) choice="inc --flags carry,zero" ;;
      6) choice="sub,rsb --subtract-carry borrow --flags carry,overflow,less-unsigned" ;;
    esac
    emit --detail cells --width $width --structure $structure --operations $choice --vectors 20
    lints
    [ $width -le 17 ] || thin 300
    compile u.v u_tb.v
    passes
    repeated=$(sed -n 's/^  u_[a-z0-9_]* \([a-z0-9_]*\) ($/\1/p' u.v | sort | uniq -d)
    [ -z "$repeated" ] || wrong "instances called alike: $repeated"
  done
done

# Prefix cells: those that cost counts, in 64 columns. Groups of 6 (the least whose square is half
# of 64 or more), of 2, 3, 4 ...; units of four, and of four units.
for structure in sklansky kogge-stone brent-kung han-carlson ladner-fischer depth=8; do
  emit --detail cells --width 64 --structure $structure --vectors 0
  has "\(prefix\|carry\)_cell" "$("$SUMWRIGHT" cost --widths 64 --structures $structure --format csv |
    awk -F, 'NR == 1 { for (k = 1; k <= NF; k++) if ($k == "prefix_cells") at = k; next } { print $at }')"
done
emit --detail cells --width 64 --structure lookahead --vectors 0
has unit_4 $((16 + 4 + 1))
for structure in skip select; do
  emit --detail cells --width 64 --structure $structure --vectors 0
  grep -c '^  ) group_' u.v >groups || :
  [ "$(cat groups)" -eq $([ $structure = skip ] && echo 11 || echo 10) ] || wrong "$(cat groups) groups"
done
echo "$cases simulations pass"
