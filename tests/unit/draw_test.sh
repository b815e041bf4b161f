#!/bin/sh
# sumwright draw through the real program: what it refuses, with one line on standard error and no
# file; that a file appears whole or not at all; that operands are taken in every form.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
cases=0

wrong() {
  echo "wrong: $1"
  cat stdout stderr
  exit 1
}

# refuses STATUS WORDS ARGUMENTS: that status, a message that holds the words, and no drawing.
refuses() {
  expected=$1
  words=$2
  shift 2
  status=0
  "$SUMWRIGHT" draw "$@" >stdout 2>stderr || status=$?
  [ "$status" -eq "$expected" ] || wrong "status $status, not $expected, of: $*"
  [ "$(wc -l <stderr)" -eq 1 ] || wrong "not one line for: $*"
  grep -q '^sumwright: error: ' stderr || wrong "no error for: $*"
  grep -q -e "$words" stderr || wrong "nothing about '$words' for: $*"
  [ ! -s stdout ] || wrong "standard output for: $*"
  [ -z "$(ls | grep -v -e '^stdout$' -e '^stderr$')" ] || wrong "files for: $*"
  cases=$((cases + 1))
}

refuses 2 "draw lacks --svg; name the file to draw into, for example --svg addsub8.svg"
refuses 2 "takes no '5'" 5 6 --svg x.svg
refuses 2 "takes 2 operands and 1 is given; give a and b" --svg x.svg --example 5
refuses 2 "takes 2 operands and 0 is given" --svg x.svg --example sub
refuses 2 "there is '7' too; give a and b, or choose another operation" --svg x.svg --example 5,6,7
refuses 2 "there is '7' too" --svg x.svg --example 5,6,7,8,9,add
refuses 2 "takes 1 operand and there is '6' too" --operations neg --svg x.svg --example 5,6
refuses 2 "takes 1 operand and 0 is given" --operations neg --svg x.svg --example neg
refuses 2 "unsigned they hold 0 to 255, in two's complement -128 to 127" --svg x.svg --example 256,1
refuses 2 "operand b '-129' does not fit 8 bits" --svg x.svg --example 1,-129,sub
refuses 2 "cannot show 'rsb'; this unit does add or sub" --svg x.svg --example 1,2,rsb
refuses 2 "cannot show 'plus'" --svg x.svg --example 1,2,plus
refuses 2 "example is empty; write A,B" --svg x.svg --example ''
refuses 2 "is not a number" --svg x.svg --example 1,
refuses 2 "is not a number" --svg x.svg --example ,1
refuses 2 "is not a number" --svg x.svg --example 1.5,2
refuses 2 "does not read cin" --svg x.svg --example 1,2 --cin 1
refuses 2 "cin without --example" --svg x.svg --operations adc --cin 1
refuses 2 "symbols cannot be 'round'; it is distinctive or rectangular" --svg x.svg --symbols round
refuses 2 "svg is empty" --svg ''
refuses 4 "nowhere" --svg nowhere/x.svg
refuses 4 "x.svg" --svg /proc/x.svg
# Longer than any operands.
refuses 2 "longer than any operands" --svg x.svg --example "$(printf '%09000d' 0),1"

# A drawing is the same from run to run; another in its place needs --overwrite.
"$SUMWRIGHT" draw --svg x.svg --example 5,-3,sub >stdout 2>stderr || wrong "draws nothing"
[ ! -s stdout ] && [ ! -s stderr ] || wrong "says something"
cp x.svg before
"$SUMWRIGHT" draw --svg x.svg --example 5,-3,sub || wrong "refuses the same drawing"
cmp -s x.svg before || wrong "two runs differ"
status=0
"$SUMWRIGHT" draw --svg x.svg --example 5,-4,sub >stdout 2>stderr || status=$?
[ "$status" -eq 4 ] || wrong "status $status where another file is"
cmp -s x.svg before || wrong "another file is gone"
"$SUMWRIGHT" draw --svg x.svg --example 5,-4,sub --overwrite || wrong "does not overwrite"
if cmp -s x.svg before; then wrong "is not overwritten"; fi

# The same operands in every form.
"$SUMWRIGHT" draw --svg forms.svg --example 251,0b11111101,sub
for form in -5,-3,sub 0xfb,0xFD,sub; do
  "$SUMWRIGHT" draw --svg forms.svg --example $form || wrong "$form is something else"
done
# The first operation where none is named, and one operand where one is read.
"$SUMWRIGHT" draw --svg first.svg --example 5,3,add
"$SUMWRIGHT" draw --svg first.svg --example 5,3 || wrong "the first is not add"
"$SUMWRIGHT" draw --svg one.svg --operations inc,dec --example 5,dec || wrong "one operand"
"$SUMWRIGHT" draw --svg cin.svg --operations adc,sbc --example 5,3,sbc --cin 0 || wrong "cin"
grep -q 'cin = 0' cin.svg || wrong "no cin"

# A disk that is full leaves nothing half-written.
if [ -e /dev/full ]; then
  status=0
  "$SUMWRIGHT" draw --svg /dev/full >stdout 2>stderr || status=$?
  [ "$status" -eq 4 ] || wrong "status $status on a full device"
fi
(
  ulimit -f 1
  status=0
  "$SUMWRIGHT" draw --svg limited.svg >stdout 2>stderr || status=$?
  [ "$status" -eq 4 ] && [ ! -e limited.svg ]
) || wrong "a limit on the size of files"
[ -z "$(ls -A | grep '^\.')" ] || wrong "temporary files are left"
# A column drawn as a half adder is one in the generated text: column 0 where no carry enters.
for operations in add sub adc inc dec neg pass add,sub inc,dec add,inc sub,rsb; do
  for width in 1 4; do
    rm -rf cells.svg unit
    mkdir unit
    "$SUMWRIGHT" draw --operations $operations --width $width --svg cells.svg
    "$SUMWRIGHT" emit --operations $operations --width $width --name cells --out unit >/dev/null
    drawn=$(grep -c '>HA<' cells.svg || true)
    emitted=$(grep -c 'half_adder adder' unit/cells.v || true)
    [ "$drawn" -eq "$emitted" ] || wrong "$drawn half adders drawn, $emitted emitted: $operations"
  done
done
echo "$cases refusals hold"
