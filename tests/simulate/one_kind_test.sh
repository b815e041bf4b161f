#!/bin/sh
# Units of NANDs or NORs alone, from options to verdict: every structure, and what stands around the
# adder. pairwise_test.sh has these details with every value of every other property.
set -eu
. "$SOURCE/tests/simulate/lib.sh"

# only PRIMITIVE: the text has instances of this primitive and no other gate.
only() {
  ! sed 's,//.*,,' u.v | grep -q '[&|^~]' || wrong "an operator in the text"
  found=$(sed -n 's/^  \([a-z]*\) (.*/\1/p' u.v | sort -u)
  [ "$found" = "$1" ] || wrong "gates other than $1: $found"
  said=$(sed -n 's/^circuit *\([0-9]*\) two-input.*/\1/p' emit.log)
  [ "$(grep -c "^  $1 (" u.v)" = "$said" ] || wrong "emit says $said gates"
}

for kind in nand nor; do
  for structure in ripple fewest skip select lookahead sklansky kogge-stone brent-kung han-carlson \
    ladner-fischer depth=6; do
    simulate --detail $kind --structure $structure --width 5 --flags all
    only $kind
    simulate --detail $kind --structure $structure --width 17 --operations sbc --vectors 50 \
      --subtract-carry borrow --overflow saturate-signed
    only $kind
  done
  for width in 1 2 64; do
    emit --detail $kind --width $width --operations sub,add --control low --vectors 50
    [ $width -lt 64 ] || thin 500
    compile u.v u_tb.v
    passes
  done
  simulate --detail $kind --width 3 --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags carry,zero
  simulate --detail $kind --width 4 --operations add,sub,neg --control one-hot --registers both \
    --enable --reset async --flags all
  simulate --detail $kind --width 8 --operations pass --flags none
done
echo "$cases simulations pass"
