#!/bin/sh
# The files that keep WIDTH serve other widths: the unit emitted at one width passes the testbench
# and vectors emitted at another, which set the parameter.
set -eu
. "$SOURCE/tests/simulate/lib.sh"
for detail in operators cells; do
  for choice in "add --flags none" "add --flags all" "add,sub" "adc,sbc --subtract-carry borrow --overflow saturate-signed" "add,sub,inc,dec --registers both --flags all"; do
    for widths in "8 1" "8 5" "4 8" "5 12" "1 4" "2 7" "12 4"; do
      from=${widths% *} to=${widths#* }
      case "$choice$from" in *all1 | *all2) continue ;; esac # half-carry needs 4 bits
      case "$choice$to" in *all1) continue ;; esac
      emit --detail $detail --width "$from" --operations $choice --vectors 50
      mv u.v kept.v
      emit --detail $detail --width "$to" --operations $choice --vectors 50
      mv kept.v u.v
      compile u.v u_tb.v
      passes
    done
  done
done
echo "$cases overrides pass"
