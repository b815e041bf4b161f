#!/bin/sh
# Additions, subtractions and every pair of one of each: Yosys proves each emitted unit equal to an
# independent description, at every output, and reads it without a warning. Every choice of
# operations, both control lines, both senses and all details at 4 bits; the widths 1, 2, 8, 16 and
# 32 and the overflow rules by turns.
set -eu
. "$SOURCE/tests/outside/yosys_lib.sh"

turn=0
rule_by_turn() {
  turn=$((turn + 1))
  case $((turn % 3)) in 0) rule=wrap ;; 1) rule=saturate-signed ;; 2) rule=saturate-unsigned ;; esac
}

alone() { # width sense detail operation
  rule_by_turn
  emit_unit "$1" "$2" "$rule" "$3" fixed "$4"
  ports_of
  describe $name "$n" "$sense" "$rule" "$ports" "$4:1" >${name}_plain.v
  prove $name
}

pair() { # width sense detail control first second
  rule_by_turn
  emit_unit "$1" "$2" "$rule" "$3" "$4" "$5,$6"
  ports_of
  pin=mode
  [ "$5,$6" != add,sub ] || pin=subtract
  if [ "$4" = high ]; then first="!$pin" second=$pin; else first=$pin second="!$pin"; fi
  describe $name "$n" "$sense" "$rule" "input $pin, $ports" "$5:$first" "$6:$second" >${name}_plain.v
  prove $name
}

for detail in operators cells gates; do
  for sense in no-borrow borrow; do
    for operation in add adc sub sbc; do
      alone 4 $sense $detail $operation
    done
    for addition in add adc; do
      for subtraction in sub sbc; do
        for control in high low; do
          pair 4 $sense $detail $control $addition $subtraction
          pair 4 $sense $detail $control $subtraction $addition
        done
      done
    done
  done
  for width in 1 2 8 16; do
    alone $width no-borrow $detail add
    alone $width borrow $detail sbc
    pair $width no-borrow $detail high add sub
    pair $width borrow $detail low sbc adc
  done
  pair 32 no-borrow $detail high add sub
done
run_proofs
