#!/bin/sh
# The smallest circuits, by a satisfiability solver: that so many gates are enough, and that no fewer
# are. A circuit found is checked on every input by outside/smallest, which asks the questions.
# `sh smallest_test.sh all` also asks those that take long, ten minutes together. SMALLEST is that
# program, SUMWRIGHT ours.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

# ask MODE BASIS GATES UNIT ...: sets answer to possible or impossible.
ask() {
  mode=$1
  shift
  "$SMALLEST" "$mode" "$@" >question.cnf
  status=0
  cadical -q question.cnf >answer || status=$?
  case $status in
    10) answer=possible ;;
    20) answer=impossible ;;
    *) echo "wrong: the solver ended with status $status for $*"; exit 1 ;;
  esac
}

# none_below GATES MODE BASIS UNIT ...: no circuit has fewer gates.
none_below() {
  below=$1 how=$2 basis=$3
  shift 3
  gates=1
  while [ $gates -lt "$below" ]; do
    ask "$how" "$basis" $gates "$@"
    [ $answer = impossible ] || { echo "wrong: $* needs no more than $gates gates"; exit 1; }
    gates=$((gates + 1))
  done
}

# least GATES BASIS UNIT ...: so many are enough, and no fewer.
least() {
  wanted=$1 of=$2
  shift 2
  none_below "$wanted" write "$of" "$@"
  ask write "$of" "$wanted" "$@"
  [ $answer = possible ] || { echo "wrong: $wanted gates are too few for $*"; exit 1; }
  "$SMALLEST" read "$of" "$wanted" "$@" <answer >circuit
  echo "$* takes $wanted gates, $of, and no fewer:"
  cat circuit
}

# as_ours OPERATIONS WIDTH: for each sense and set of outputs the least is what our circuit has.
as_ours() {
  for sense in no-borrow borrow; do
    for flags in none carry overflow carry,overflow; do
      "$SUMWRIGHT" emit --name ours --overwrite --vectors 0 --structure fewest --operations "$1" \
        --width "$2" --subtract-carry $sense --flags $flags >said
      ours=$(sed -n 's/^circuit *\([0-9]*\) two-input gates*,.*/\1/p' said)
      [ -n "$ours" ] || { echo "wrong: no gates are told for $1 of $2 bits"; exit 1; }
      least "$ours" any "$1" "$2" $sense "result,$flags" >shown || { cat shown; exit 1; }
    done
  done
  echo "$1 of $2 bits: no circuit is smaller than ours"
}

# The rules that leave out circuits leave out no smaller one: the same without them.
none_below 5 write-plain any adc 1 borrow result,carry
none_below 5 write-plain any add,sub 2 borrow result

least 5 any adc 1 borrow result,carry
least 6 any adc,sbc 1 borrow result,carry
least 9 nand adc 1 borrow result,carry
least 9 nor adc 1 borrow result,carry
least 5 any add,sub 2 no-borrow result
least 8 any add,sub 2 no-borrow result,overflow
least 9 any add,sub 2 no-borrow result,carry
as_ours adc,sbc 1
as_ours inc,dec 2

[ "${1:-}" = all ] || exit 0
for pair in add,sub add,adc add,sbc sub,adc sub,sbc sub,rsb; do
  as_ours $pair 1
done
least 9 any add,sub 2 no-borrow result,carry,overflow
for pair in add,sub sub,rsb; do
  as_ours $pair 2
done
as_ours inc,dec 3
least 8 any adc,sbc 2 borrow result
least 8 any adc,sbc 2 no-borrow result
least 13 nand adc,sbc 1 borrow result,carry
least 13 nor sbc,adc 1 borrow result,carry
