#!/bin/sh
# What emit says of a circuit, "N two-input gates, L levels", against what Yosys counts in the file
# that it wrote; and the size of `operators` on an FPGA.
#
# An inverter at an input of AND or OR, or at a gate's output, belongs to that gate, and one at an
# output pin is no gate; so Yosys counts the cells of two inputs, and inverters are made wires before
# the levels are counted (which changes what the circuit computes, but no path).
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
units=0

cat >wire.v <<'V'
module \$_NOT_ (input A, output Y);
  assign Y = A;
endmodule
V

# unit OPTIONS: emits u1, u2, ... and keeps what emit says of it in u1.said.
unit() {
  units=$((units + 1))
  name=u$units
  echo "$*" >$name.options
  "$SUMWRIGHT" emit --name $name --vectors 0 "$@" >emit.log 2>&1 || { cat emit.log; exit 1; }
  sed -n 's/^circuit *\([0-9]*\) two-input gates*, \([0-9]*\) levels*.*/\1 gates, \2 levels/p' \
    emit.log >$name.said
  [ -s $name.said ] || { echo "emit says nothing of the circuit: $*"; cat emit.log; exit 1; }
}

# The gates and levels that Yosys found in a unit, from the output of stat and ltp.
counted() {
  awk '/ \$_(AND|OR|XOR|NAND|NOR|XNOR)_ / { gates += $2; next }
       / \$_NOT_ / { next }
       /^     [^ ]* +[0-9]+$/ { print "cell " $1 " is no gate"; exit }
       /length=/ { sub(/.*length=/, ""); sub(/\).*/, ""); levels = $0 }
       END { print gates + 0 " gates, " levels + 0 " levels" }' $1.stat $1.ltp
}

yosys_runs() {
  yosys -q -s "$1" >yosys.log 2>&1 || { tail -n 20 yosys.log; exit 1; }
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

for k in $(seq $units); do
  cat <<YS
read_verilog u$k.v
hierarchy -check; proc; opt_clean; simplemap
tee -q -o u$k.stat stat
techmap -map wire.v; opt_clean
tee -q -o u$k.ltp ltp
design -reset
YS
done >count.ys
yosys_runs count.ys
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
