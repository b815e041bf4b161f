#!/bin/sh
# Additions, subtractions and every pair of one of each: Yosys proves each emitted unit equal to an
# independent description, at every output, and reads it without a warning. Every choice of
# operations, both control lines, both senses and all details at 4 bits; the widths 1, 2, 8, 16 and
# 32 and the overflow rules by turns.
set -eu
. "$SOURCE/tests/outside/yosys_lib.sh"

turn=0
next_rule() {
  turn=$((turn + 1))
  case $((turn % 3)) in 0) rule=wrap ;; 1) rule=saturate-signed ;; 2) rule=saturate-unsigned ;; esac
}

for detail in operators cells gates; do
  for sense in no-borrow borrow; do
    for operation in add adc sub sbc; do
      next_rule
      alone 4 $sense $rule $detail $operation
    done
    for addition in add adc; do
      for subtraction in sub sbc; do
        for control in high low; do
          next_rule
          pair 4 $sense $rule $detail $control $addition,$subtraction
          next_rule
          pair 4 $sense $rule $detail $control $subtraction,$addition
        done
      done
    done
  done
  for width in 1 2 8 16; do
    next_rule
    alone $width no-borrow $rule $detail add
    next_rule
    alone $width borrow $rule $detail sbc
    next_rule
    pair $width no-borrow $rule $detail high add,sub
    next_rule
    pair $width borrow $rule $detail low sbc,adc
  done
  next_rule
  pair 32 no-borrow $rule $detail high add,sub
done
run_proofs
