# Sourced by matrix_*_test.sh with detail set: the combinations of properties, each simulated.
#
#   at 4 bits  every choice of operations and control line, in both senses, under every overflow
#              rule; the flag sets by turns
#   at 5 bits  every flag alone, none, all and the default, in three choices of operations; the
#              overflow rules by turns
#   widths     1 ... 1024 bits, three choices of operations each (one at 1024), every flag; the
#              overflow rules by turns; up to 8 bits every input, beyond 16 an evenly spread
#              part of the vectors
#   others     the operations and control styles beyond add and sub, registers
#
# pairwise_test.sh has every two values of any two properties together.
. "$SOURCE/tests/simulate/lib.sh"

turn=0
next_flags() {
  turn=$((turn + 1))
  case $((turn % 4)) in
    0) flags=all ;;
    1) flags=carry,overflow,zero,negative ;;
    2) flags=none ;;
    3) flags=less-signed,less-unsigned,parity ;;
  esac
}
next_rule() {
  turn=$((turn + 1))
  case $((turn % 3)) in
    0) rule=wrap ;;
    1) rule=saturate-signed ;;
    2) rule=saturate-unsigned ;;
  esac
}

for sense in no-borrow borrow; do
  for rule in wrap saturate-signed saturate-unsigned; do
    for alone in add sub adc sbc; do
      next_flags
      simulate --detail $detail --width 4 --operations $alone --subtract-carry $sense \
        --flags $flags --overflow $rule
    done
    for pair in add,sub add,sbc adc,sub adc,sbc sub,add sbc,add sub,adc sbc,adc; do
      for control in high low; do
        next_flags
        simulate --detail $detail --width 4 --operations $pair --control $control \
          --subtract-carry $sense --flags $flags --overflow $rule
      done
    done
  done
done

for flags in none all carry overflow zero negative less-signed less-unsigned parity half-carry \
  carry,overflow,zero,negative; do
  for choice in add adc,sub sbc; do
    next_rule
    simulate --detail $detail --width 5 --operations $choice --subtract-carry borrow \
      --flags $flags --overflow $rule
  done
done

# Icarus needs a time that grows with more than the square of the width, most of it for vectors whose
# bits change one after the other; so wide units get few vectors.

for width in 1 2 3 4 5 7 8 12 16 31 32 33 64 65 128 1024; do
  for choice in "add" "add,sub" "sbc,adc --control low --subtract-carry borrow"; do
    [ $width -lt 1024 ] || [ "$choice" = add,sub ] || continue
    next_rule
    [ $width -lt 1024 ] || rule=wrap
    emit --detail $detail --width $width --operations $choice --flags all --overflow $rule \
      --vectors 20
    [ $width -le 16 ] || thin $((8000 / width + 1))
    compile u.v u_tb.v
    passes
  done
done

all=add,adc,sub,sbc,rsb,inc,dec,neg,pass
for operation in rsb inc dec neg pass; do
  simulate --detail $detail --width 5 --operations $operation --flags all
done
for sense in no-borrow borrow; do
  simulate --detail $detail --width 4 --operations $all --flags all --subtract-carry $sense
  simulate --detail $detail --width 4 --operations $all --control one-hot --flags all \
    --subtract-carry $sense
  simulate --detail $detail --width 5 --operations sbc=110,inc=001,add=100 --flags all \
    --subtract-carry $sense --vectors 50
  simulate --detail $detail --width 6 --operations dec,pass --control one-hot \
    --subtract-carry $sense
done
for reset in "none" "sync" "async" "sync --reset-level low" "async --reset-level low"; do
  for registers in output both; do
    simulate --detail $detail --width 4 --operations add,sbc --flags all --registers $registers \
      --reset $reset
    simulate --detail $detail --width 2 --operations $all --control one-hot \
      --registers $registers --reset $reset --enable --vectors 50
  done
done
echo "$cases simulations pass"
