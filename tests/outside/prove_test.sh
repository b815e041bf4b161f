#!/bin/sh
# check --prove, whose gates are read by Yosys: right designs are equal to their units for all inputs,
# and what Yosys cannot read is said to be unproved; designs that pass every vector and are wrong, or
# may be, do not pass the proof; and what `emit` writes is proved from its text.
set -eu
. "$SOURCE/tests/designs/check_all.sh"
designs=$SOURCE/tests/designs

# Right: those that Yosys 0.23 reads. The three others are unproved with the reason.
mkdir unread
for name in bench_inside primitive_mux tri_states; do
  sed '/^\/\/ verdict: /s/PASS/UNPROVED Yosys cannot read it as gates/' "$designs/right/$name.v" >unread/$name.v
done
export MORE=--prove
check_all $(ls -d "$designs"/right/*.v "$designs"/right/*.sv "$designs"/right/parts |
  grep -v -e bench_inside -e primitive_mux -e tri_states) unread/*.v "$designs"/missed/*.v
grep -c '^right ' results

# Without the proof, every design of missed/ passes: the vectors alone do not see it.
unset MORE
mkdir missed
for design in "$designs"/missed/*.v; do
  sed '/^\/\/ verdict: /s/: .*/: PASS/' "$design" >"missed/$(basename "$design")"
done
check_all missed/*.v

wrong() { echo "wrong: $1"; cat said; exit 1; }

# The words of a proof, of a difference and of none.
"$SUMWRIGHT" check --width 12 --operations sub --flags none --port a=observed "$designs/right/residual_only.v" --prove >said || wrong "proof"
grep -q ': equal to the unit for all 2^24 inputs; [0-9]* vectors simulated$' said || wrong "words"
sed "s/~predicted}/&+1/" "$SOURCE/docs/residual.v" >residual.v
"$SUMWRIGHT" check --width 12 --operations sub --flags carry,zero --port a=observed --port b=predicted residual.v --prove >said ||
  wrong "the README's residual"
grep -q "^    $(head -n 1 said)\$" "$SOURCE/README.md" || wrong "README shows another line"
"$SUMWRIGHT" check --width 32 --operations sub --flags zero "$designs/missed/one_input.v" --prove >said && wrong "passes"
grep -q '^  the proof found what the vectors miss: wrong for 1 of every 2^64 inputs$' said || wrong "share"
grep -q 'a = 1300417, b = 1298330$' said || wrong "example"
"$SUMWRIGHT" check --width 32 --operations sub --flags zero "$designs/missed/one_input.v" --prove --format json >said && wrong "passes"
grep -q '"proof": ""' said || wrong "JSON of a difference"
"$SUMWRIGHT" check --width 12 --operations sub --flags none --port a=observed "$designs/right/residual_only.v" --prove --format json >said || wrong "JSON"
grep -q '"proof": "equal to the unit for all 2^24 inputs"' said || wrong "JSON of a proof"
"$SUMWRIGHT" check --each --width 4 unread/primitive_mux.v --prove >said && wrong "unproved"
grep -q '^UNPROVED unread/primitive_mux.v: Yosys cannot read it as gates: ' said || wrong "table"

# Without Yosys: one line, and status 4.
mkdir simulator
for program in iverilog vvp; do ln -s "$(command -v $program)" simulator/$program; done
status=0
PATH=$PWD/simulator "$SUMWRIGHT" check --width 12 --operations sub --flags none \
  --port a=observed "$designs/right/residual_only.v" --prove >said 2>&1 || status=$?
[ $status -eq 4 ] && [ "$(wc -l <said)" -eq 1 ] && grep -q 'Yosys, which is not on the PATH; install it' said ||
  wrong "no Yosys"

# What is emitted is proved from its text: every fourth (EVERY=1: each) of the units that pairwise.c chooses.
"${CC:-cc}" -o choose "$SOURCE/tests/simulate/pairwise.c"
./choose | sed -n 's/^unit //p' >units
cat >prove_one <<'END'
folder=$(mktemp -d ./unit.XXXXXX)
"$SUMWRIGHT" emit $* --name unit --vectors 0 --out "$folder" >/dev/null || { echo "wrong $*: not emitted"; exit 0; }
"$SUMWRIGHT" check $* --name unit --vectors 0 --prove "$folder/unit.v" >"$folder/said" 2>&1 || true
case $(head -n 1 "$folder/said") in
  PASS*": equal to the unit for all "*) echo "right $*" ;;
  *) echo "wrong $*: $(head -n 1 "$folder/said")" ;;
esac
rm -r "$folder"
END
awk "NR % ${EVERY:-4} == 0" units | xargs -P 2 -I LINE sh -c 'sh prove_one LINE' >results
! grep '^wrong ' results || exit 1
echo "$(grep -c '^right ' results) emitted units are proved"
