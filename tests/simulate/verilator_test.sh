#!/bin/sh
# The same testbench in Verilator 5: right units pass, a wrong one fails, the plusargs are taken; and
# the lint of unit and testbench is silent for each detail, with and without registers.
set -eu
. "$SOURCE/tests/simulate/lib.sh"

lint() {
  emit "$@"
  verilator --lint-only -Wall u.v >lint.log 2>&1 && [ ! -s lint.log ] || { cat lint.log; wrong "lint of the unit"; }
  verilator --lint-only --timing -Wall --top u_tb u_tb.v u.v >lint.log 2>&1 && [ ! -s lint.log ] ||
    { cat lint.log; wrong "lint of the testbench"; }
  cases=$((cases + 1))
}
# Each detail in turns: simulate/pairwise lints many more.
turn=0
for detail in operators cells gates nand nor; do
  for more in "--width 1 --operations add" \
    "--width 1 --operations dec=1 --control code --flags less-signed --overflow saturate-signed" \
    "--width 8 --operations add,sub --flags all" \
    "--width 5 --operations sbc,adc --flags none --overflow saturate-unsigned" \
    "--width 12 --operations add,sub,inc,dec,neg --flags all --overflow saturate-signed" \
    "--width 7 --operations add,rsb,pass --control one-hot --registers both --enable --reset async" \
    "--width 33 --operations adc,sbc --registers output --reset none --flags all"; do
    turn=$(((turn + 1) % 5))
    [ $turn -gt 1 ] || lint --detail $detail $more --vectors 5
  done
done

# build [OPTION ...]: what Verilator has of its own is compiled once; make is told that it does not
# depend on the makefile (-o).
build() {
  verilator --binary --timing --trace -CFLAGS -O0 -MAKEFLAGS OPT_GLOBAL=-O0 \
    -MAKEFLAGS -oVu_tb.mk --top u_tb "$@" u_tb.v u.v >build.log 2>&1 ||
    { tail -n 20 build.log; wrong "verilator does not build"; }
}
emit --width 7 --operations add,sub --flags all
build -Wall
obj_dir/Vu_tb +dump | tee simulate.log
grep -q '^PASS u: ' simulate.log || wrong "does not pass"
[ -s u.vcd ] || wrong "no dump"
mv u.vec other.vec
obj_dir/Vu_tb +vectors=other.vec | grep -q '^PASS u: ' || wrong "+vectors is not read"
sed -n '1,200p' other.vec >u.vec
! obj_dir/Vu_tb >simulate.log 2>&1 || wrong "a cut file passes"
grep -q '^FAIL u: ' simulate.log || wrong "no FAIL for a cut file"
emit --width 4 --operations add,sub,adc --registers both --enable --reset async --detail operators
build -Wall
obj_dir/Vu_tb >simulate.log || { cat simulate.log; wrong "a registered unit does not pass"; }
cp u.v right.v
for change in "s/ or posedge rst//" "s/else if (en)/else/"; do
  sed "$change" right.v >u.v
  build
  ! obj_dir/Vu_tb +limit=2 >simulate.log 2>&1 || wrong "a wrong unit passes: $change"
  grep -q '^FAIL u: ' simulate.log || wrong "no FAIL"
  [ "$(grep -c '^mismatch ' simulate.log)" -eq 2 ] || wrong "+limit is not taken"
done
echo "$cases lints are silent, Verilator agrees"
