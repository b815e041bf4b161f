#!/bin/sh
# What emit says of a circuit, "N two-input gates, L levels", against what Yosys counts in the file
# that it wrote; and the size of `operators` on an FPGA.
set -eu
. "$SOURCE/tests/outside/counts_lib.sh"
units=0

# unit OPTIONS: the next unit, u1, u2, ...
unit() {
  units=$((units + 1))
  echo "$*" >u$units.options
  emit_counted u$units "$@"
}

# ---- gates and levels --------------------------------------------------------------------------

for width in 1 2 3 8 33 64; do
  gates="--width $width --detail gates"
  unit $gates --operations add --flags carry
  unit $gates --operations inc --flags carry,zero
  unit $gates --operations pass --flags none
  unit $gates --operations sub --flags carry,less-signed --subtract-carry borrow
  unit $gates --operations add,sub --flags carry,overflow
  unit $gates --operations add,sub --flags all --overflow saturate-signed
  unit $gates --operations sub,rsb --control low --flags all --overflow saturate-unsigned
  unit $gates --operations add,sub,neg --control one-hot --flags all --subtract-carry borrow
  unit $gates --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags all
  unit $gates --operations add=001,sub=011,adc=110 --flags all --subtract-carry borrow
done

# Every structure, a first carry that enters the columns included; costs_test.sh has add,sub from 8 to
# 64 bits.
for structure in ripple skip select lookahead sklansky kogge-stone brent-kung han-carlson \
  ladner-fischer depth=8 depth=19; do
  for width in 1 5 19; do
    unit --width $width --structure $structure --detail gates --operations adc,sub,neg --flags all
  done
  unit --width 33 --structure $structure --detail gates --operations sub,rsb --flags carry,overflow
done
for width in 1 5 19; do
  unit --width $width --structure fewest --operations adc,sbc --flags carry,overflow,zero
done

# Of one kind: every gate counts, inverters too.
for detail in nand nor; do
  for width in 1 3 8 33; do
    gates="--width $width --detail $detail"
    unit $gates --operations add --flags carry
    unit $gates --operations add,sub --flags carry,overflow --structure fewest
    unit $gates --operations add,sub --flags all --structure brent-kung --overflow saturate-signed
  done
done

count_all
for k in $(seq $units); do
  found=$(counted u$k)
  [ "$found" = "$(cat u$k.said)" ] || {
    echo "emit says $(cat u$k.said), Yosys counts $found: sumwright emit $(cat u$k.options)"
    exit 1
  }
done
echo "$units units are as large and as deep as emit says"

# ---- lookup tables -----------------------------------------------------------------------------

# The one-line a + (b ^ {n{m}}) + m takes 2n + 1 four-input lookup tables on iCE40 with Yosys 0.23
# (measured here); the unit must take no more.
for width in 4 8 16 32; do
  "$SUMWRIGHT" emit --name table$width --width $width --detail operators --operations add,sub \
    --flags carry,overflow --vectors 0 >emit.log 2>&1 || { cat emit.log; exit 1; }
  cat <<YS
read_verilog table$width.v
synth_ice40 -top table$width
tee -q -o table$width.stat stat
design -reset
YS
done >tables.ys
yosys_runs tables.ys
for width in 4 8 16 32; do
  tables=$(awk '$1 == "SB_LUT4" { print $2 }' table$width.stat)
  [ "${tables:-0}" -gt 0 ] && [ "$tables" -le $((2 * width + 1)) ] || {
    echo "$width bits take ${tables:-no} lookup tables, not at most $((2 * width + 1))"
    exit 1
  }
  echo "$width bits: $tables lookup tables"
done
