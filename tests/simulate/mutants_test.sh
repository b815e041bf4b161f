#!/bin/sh
# A mutation campaign: every slip that mutants.c knows, in emitted units of several structures,
# operations and widths too wide for all inputs to be tried, against fewer random vectors than the
# default. Each mutant that compiles must FAIL the unit's own testbench, or be proven by Yosys to be
# the same circuit. MUTANTS=all: more units.
set -eu
. "$SOURCE/tests/simulate/lib.sh"
"${CC:-cc}" -o mutants "$SOURCE/tests/simulate/mutants.c"
killed=0 same=0 rejected=0

# simulate_mutants VECTORS: those in the file `some`, in one simulation of the vectors in that file,
# without the ones that the compiler has a word to say against; verdicts to simulate.log.
simulate_mutants() {
  until sed 's/.*/m&.v t&.v/' some | timeout 100 xargs iverilog -g2005 -o u.vvp >compile.log 2>&1; do
    sed -n 's/^m\([0-9]*\)\.v:.*error.*/\1/p' compile.log | sort -u >bad
    [ -s bad ] || { tail -n 5 compile.log; wrong "the compiler stops for no mutant's sake"; }
    rejected=$((rejected + $(wc -l <bad)))
    grep -v -x -f bad some >better || :
    mv better some
  done
  timeout 300 vvp -n u.vvp +vectors="$1" +limit=0 >simulate.log || wrong "the simulation stops"
  [ "$(grep -c '^FAIL\|^PASS' simulate.log)" -eq "$(wc -l <some)" ] ||
    wrong "a mutant without a verdict"
}

# is_same K: Yosys proves mutant K to be the unit: the two side by side show no difference, with any
# inputs.
is_same() {
  yosys -q -p "read_verilog u.v; prep -flatten -top u; rename u gold; design -stash gold;
    read_verilog m$1.v; prep -flatten -top u$1; rename u$1 gate; design -stash gate;
    design -copy-from gold gold; design -copy-from gate gate;
    miter -equiv -flatten gold gate both; sat -verify -prove trigger 0 both" >same.log 2>&1
}

# passing: those that passed, to the file `some`.
passing() {
  sed -n 's/^PASS u\([0-9]*\):.*/\1/p' simulate.log >some
}

# A mutant that fails on some of the vectors fails on all of them; most do so on a twentieth.
campaign() {
  emit --vectors 100 "$@"
  cp u.vec all.vec
  thin $(($(sed -n 's/^vectors *\([0-9]*\).*/\1/p' emit.log) / 20))
  count=$(./mutants)
  [ "$count" -gt 20 ] || wrong "only $count mutants"
  first=0
  while [ $first -lt "$count" ]; do
    last=$((first + 99))
    [ $last -lt "$count" ] || last=$((count - 1))
    seq $first $last >some
    simulate_mutants u.vec
    tried=$(wc -l <some)
    passing
    [ ! -s some ] || simulate_mutants all.vec
    [ ! -s some ] || passing
    killed=$((killed + tried - $(wc -l <some)))
    for k in $(cat some); do
      is_same "$k" || { head -n 1 "m$k.v"; wrong "a mutant survives"; }
      same=$((same + 1))
    done
    first=$((last + 1))
  done
  rm -f m*.v t*.v
}

campaign --detail cells --width 10
campaign --detail operators --width 9 --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags all
campaign --detail operators --width 20 --operations sub --overflow saturate-signed --flags all
campaign --detail gates --width 9 --operations add,sub --flags carry,overflow,zero
if [ "${MUTANTS:-}" = all ]; then
  for detail in operators cells gates; do
    campaign --detail $detail --width 12
    campaign --detail $detail --width 9 --operations adc,sbc --subtract-carry borrow --flags all
    campaign --detail $detail --width 33 --operations sbc,inc,pass --overflow saturate-unsigned
  done
fi
echo "$killed mutants killed, $same proven the same circuit, $rejected do not compile, 0 survived"
