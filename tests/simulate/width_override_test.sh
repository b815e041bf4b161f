#!/bin/sh
# Units of operators and cells serve other widths by their parameter: each is emitted at one width
# and simulated with the testbench and the vectors that are emitted at another.
#
# Every two of eight widths, both ways, the other properties by turns of eight choices;
# half-carry, which needs four bits, where both widths have them.
set -eu
. "$SOURCE/tests/simulate/lib.sh"

widths="1 2 3 4 5 8 13 64"
flags=carry,overflow,zero,negative,less-signed,less-unsigned,parity

choice() { # its number
  case $1 in
    0) echo "--operations add --flags $flags" ;;
    1) echo "--operations add,sub --flags $flags" ;;
    2) echo "--operations sbc,adc --control low --subtract-carry borrow --overflow saturate-signed --flags $flags" ;;
    3) echo "--operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --overflow saturate-unsigned --flags $flags" ;;
    4) echo "--operations add,sub,neg --control one-hot --registers both --enable --flags $flags" ;;
    5) echo "--operations inc,dec --overflow saturate-unsigned --flags overflow" ;;
    6) echo "--operations sub --flags none --registers output --reset async" ;;
    7) echo "--operations rsb,sbc,pass --overflow saturate-signed --flags zero" ;;
    half) echo "--operations adc,sub --flags $flags,half-carry" ;;
  esac
}

# Every unit at every width, each in a folder of its own.
for detail in operators cells; do
  for number in 0 1 2 3 4 5 6 7 half; do
    for width in $widths; do
      [ $number != half ] || [ $width -ge 4 ] || continue
      mkdir -p $detail/$number/$width
      cd $detail/$number/$width
      emit --detail $detail --width $width --vectors 20 $(choice $number)
      [ $width -lt 64 ] || thin 20
      cd "$folder"
    done
  done
done

# override NUMBER: the unit of width $other serves at $width.
override() {
  cd $detail/$1/$width
  options="--name u --detail $detail $(choice $1) --vectors 20, the unit at --width $other and the rest at --width $width"
  compile ../$other/u.v u_tb.v
  passes
  cd "$folder"
}

turn=0
for detail in operators cells; do
  for other in $widths; do
    for width in $widths; do
      [ $other -ne $width ] || continue
      turn=$((turn + 1))
      override $((turn % 8))
      [ $other -lt 4 ] || [ $width -lt 4 ] || override half
    done
  done
done
echo "$cases simulations pass"
