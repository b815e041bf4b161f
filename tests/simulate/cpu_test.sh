#!/bin/sh
# A small CPU around the generated unit runs a program: 32-bit sums and differences through carry
# chains, comparisons by flags, the surge residual of a day of readings, every operation and a branch
# on every flag. Its memory must end as the reference model and plain C arithmetic say. The same
# program runs with each kind of unit that a CPU might have; and with a unit whose flag, or result
# bit, is wrong, it must fail. CPU_MEMORY is the program made from cpu/memory.c.
set -eu
. "$SOURCE/tests/simulate/lib.sh"
parts=$SOURCE/tests/simulate/cpu
unit=alu
operations=add,adc,sub,sbc,rsb,inc,dec,neg,pass

# run LATENCY: the CPU in the simulator; the verdict to simulate.log.
run() {
  iverilog -g2005 -Wall -Pcpu_tb.LATENCY="$1" -o cpu.vvp "$parts/cpu_tb.v" "$parts/cpu.v" \
    "$parts/arithmetic_$adapter.v" alu.v >compile.log 2>&1 || { cat compile.log; wrong "does not compile"; }
  [ ! -s compile.log ] || { cat compile.log; wrong "the compiler warns"; }
  status=0
  timeout 100 vvp -n cpu.vvp >simulate.log 2>&1 || status=$?
}

# variant ADAPTER SENSE LATENCY OPTIONS: the unit so emitted, behind arithmetic_ADAPTER.v.
variant() {
  adapter=$1 sense=$2 latency=$3
  shift 3
  emit --width 8 --operations $operations --flags all --subtract-carry $sense --vectors 0 "$@"
  "$CPU_MEMORY" "$parts/program.asm" $sense >memory.log || wrong "the program or the model"
  run $latency
  [ $status -eq 0 ] && grep -q '^PASS cpu: ' simulate.log || { cat simulate.log; wrong "the CPU fails"; }
  said="$(sed -n "s/^PASS cpu: //p" simulate.log): --subtract-carry $sense $*"
  echo "$said"
  grep -qxF -e "$said" "$SOURCE/docs/cpu.md" || wrong "docs/cpu.md shows something else"
  cases=$((cases + 1))
}

# must_fail LATENCY WHAT: as it is now, the CPU fails.
must_fail() {
  run "$1"
  [ $status -ne 0 ] && grep -q '^FAIL cpu: ' simulate.log || wrong "passes with $2"
  cases=$((cases + 1))
}

# slip SED: so does the CPU around a unit so changed.
slip() {
  cp alu.v right.v
  sed "$1" right.v >alu.v
  ! cmp -s alu.v right.v || wrong "nothing changed by $1"
  must_fail $latency "the unit changed by $1"
  mv right.v alu.v
}
flags="carry overflow zero negative less_signed less_unsigned parity half_carry"

# The adder's own carry on the carry pins. Each flag upside down or stuck is noticed, and each bit of
# the result.
variant code no-borrow 0 --detail operators
for flag in $flags; do
  slip "s/assign $flag = \(.*\);/assign $flag = ~(\1);/"
  slip "s/assign $flag = .*;/assign $flag = 1'b0;/"
  slip "s/assign $flag = .*;/assign $flag = 1'b1;/"
done
for bit in 0 1 2 3 4 5 6 7; do
  slip "s/assign result = \(.*\);/assign result = (\1) \& ~(8'd1 << $bit);/"
done

# A borrow on the carry pins: a unit of the one sense is wrong where the other is meant.
variant code borrow 0 --detail cells
emit --width 8 --operations $operations --flags all --vectors 0
must_fail 0 "the other sense"

# Registers. The CPU must give the unit the clocks that it takes.
variant registers no-borrow 1 --registers output --reset sync --reset-level low --enable --detail gates
must_fail 0 "too few clocks for the unit"
slip "s/carry <= carry_next/carry <= !carry_next/"
slip "s/else if (en)/else if (!en)/"
variant registers borrow 2 --registers both --reset async --reset-level low --enable --detail operators
must_fail 1 "too few clocks for the unit"

# A request pin for each operation, behind a decoder.
variant one_hot no-borrow 0 --control one-hot --detail operators
for flag in $flags; do
  slip "s/assign $flag = \(.*\);/assign $flag = ~(\1);/"
done
slip "s/do_sbc/do_sbx/; s/do_sub/do_sbc/; s/do_sbx/do_sub/"
variant one_hot borrow 0 --control one-hot --detail gates

# The CPU's own text: no word from the lint, no latch, nothing undriven.
check_text() { # adapter, options
  cp "$parts/arithmetic_$1.v" arithmetic.v
  shift
  emit --width 8 --operations $operations --flags all --vectors 0 "$@"
  verilator --lint-only -Wall --top cpu "$parts/cpu.v" arithmetic.v alu.v >lint.log 2>&1 &&
    [ ! -s lint.log ] || { cat lint.log; wrong "lint of the CPU"; }
  yosys -q -p "read_verilog $parts/cpu.v arithmetic.v alu.v; hierarchy -check -top cpu; proc;
    select -assert-none t:*dlatch*; check -assert" >yosys.log 2>&1 && [ ! -s yosys.log ] ||
    { cat yosys.log; wrong "Yosys has something to say about the CPU"; }
}
check_text code
check_text registers --registers both --reset-level low --enable
check_text one_hot --control one-hot
echo "$cases CPUs do what they must"
