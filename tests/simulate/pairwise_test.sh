#!/bin/sh
# Units that together have every two values of any two properties, as chosen by pairwise.c: each is
# simulated; the program refuses the values that cannot stand together, and says why; Verilator's lint
# has nothing to say about units and testbenches, nor has Yosys, which makes gates and flip-flops of
# the units.
set -eu
. "$SOURCE/tests/simulate/lib.sh"

"${CC:-cc}" -o choose "$SOURCE/tests/simulate/pairwise.c"
./choose >chosen
sed -n 's/^unit //p' chosen >units
sed -n 's/^refuse //p' chosen >refused
pairs=$(sed -n 's/^pairs //p' chosen)
[ "${pairs% of *}" -eq "${pairs#* of }" ] || { echo "wrong: only $pairs pairs"; exit 1; }
[ -s units ] && [ -s refused ]

# Every option that describes a unit is in the table, with every value (as docs/completions, which are
# made from the options' rows, have them); but the name, which each unit here has from its number.
for option in $(sed -n '/^unit=(/,/^)/s/^ *.\**--\([a-z-]*\)\[.*/\1/p' "$SOURCE/docs/completions/_sumwright"); do
  case $option in name | help) continue ;; esac
  grep -qe "\(^\| \)--$option\( \|\$\)" units || { echo "wrong: no unit has --$option"; exit 1; }
  case $option in port | width) continue ;; esac
  for value in $(sed -n "/^unit=(/,/^)/s/^ *'--$option\[.*\]:[A-Z]*:\(_values -s , item \|(\)\([^')]*\).*/\2/p" \
    "$SOURCE/docs/completions/_sumwright"); do
    grep -qe "\(^\| \)--$option \([^ ]*,\)*${value%=}\([,= ]\|\$\)" units ||
      { echo "wrong: no unit has --$option $value"; exit 1; }
    values=$((${values-0} + 1))
  done
done
[ "$values" -gt 40 ]

# Wide words take long to simulate; the matrix of each detail tries every input of narrow ones.
while read -r line; do
  unit=pair$cases
  emit --vectors 20 $line
  case $line in *" --width 33 "* | *" --width 65 "*) thin 20 ;; *) thin 1000 ;; esac
  compile $unit.v ${unit}_tb.v
  passes
done <units

while read -r line; do
  words=${line%" | "*}
  options="--name refused ${line#*" | "}"
  status=0
  "$SUMWRIGHT" emit $options >emit.log 2>&1 || status=$?
  [ $status -eq 2 ] || { cat emit.log; wrong "not refused"; }
  grep -qF -e "$words" emit.log || { cat emit.log; wrong "refused without a word about '$words'"; }
done <refused

# silent TOOL: it left nothing in tool.log; names the first unit that it has something to say about.
silent() {
  [ -s tool.log ] || return 0
  tail -n 20 tool.log
  number=$(sed -n 's/.*pair\([0-9]*\).*/\1/p' tool.log | head -n 1)
  options="--name pair$number $(sed -n "$((${number:-0} + 1))p" units)"
  wrong "$1 complains"
}

# All at once, each testbench with the unit that it instantiates; each is a top of its own, which is
# the one warning left out.
verilator --lint-only --timing -Wall -Wno-MULTITOP pair*.v >tool.log 2>&1 || echo failed >>tool.log
silent Verilator

# Neither a latch nor a wire that nothing or two things drive, before and after; and nothing but
# gates, multiplexers and flip-flops is left. Optimizing again and again, as the script `synth` does,
# takes four times as long.
yosys -q -p "read_verilog $(ls pair*.v | grep -v _tb | tr '\n' ' '); hierarchy -check; proc;
  select -assert-none t:*dlatch*; check -assert; opt_expr; opt_clean; wreduce; alumacc; share;
  techmap; opt_expr; opt_clean; flatten; select -assert-none t:* t:\$_* %d; check -assert" \
  >tool.log 2>&1 || echo failed >>tool.log
silent Yosys

echo "$cases units pass, with $pairs possible pairs; $(wc -l <refused) pairs are refused:"
sed 's/ |.*//' refused | sort | uniq -c
