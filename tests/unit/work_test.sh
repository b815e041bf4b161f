#!/bin/sh
# sumwright work through the real program: what it refuses, with one line on standard error and
# nothing on standard output; and that operands are taken in every form and place.
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

# refuses WORDS ARGUMENTS: status 2, and the message holds the words.
refuses() {
  words=$1
  shift
  status=0
  "$SUMWRIGHT" work "$@" >stdout 2>stderr || status=$?
  [ "$status" -eq 2 ] || wrong "status $status, not 2, of: $*"
  [ "$(wc -l <stderr)" -eq 1 ] || wrong "not one line for: $*"
  grep -q '^sumwright: error: ' stderr || wrong "no error for: $*"
  grep -q -e "$words" stderr || wrong "nothing about '$words' for: $*"
  [ ! -s stdout ] || wrong "standard output for: $*"
  cases=$((cases + 1))
}

refuses "takes 2 operands and 0 is given; give a and b"
refuses "takes 2 operands and 1 is given" 5
refuses "there is '7' too" 5 6 7
refuses "takes 1 operand and there is '6' too; give a" --operations neg 5 6
refuses "takes 1 operand and 0 is given; give a" --operations inc
refuses "unsigned they hold 0 to 255, in two's complement -128 to 127" 256 1
refuses "operand b '-129' does not fit 8 bits" 1 -129
refuses "0 to 2^65 - 1, in two's complement -2^64 to 2^64 - 1" --width 65 1 0x20000000000000000
refuses "it holds 0 to 1, in two's complement -1 to 0" --width 1 2 1
for text in five '' 0x 0b12 1.5 '5 ' 1e2; do
  refuses "is not a number" "$text" 1
done
refuses "is not a number" -- --5 1
refuses "is not a number" - 1
refuses "not one of work" -x 1
refuses "'-5x'" -5x 1
refuses "this unit does add or sub" --operation neg 5
refuses "this unit does neg" --operations neg --operation add 5 5
refuses "does not read cin" --cin 1 5 5
for level in 2 -1 '' high; do
  refuses "0 to 1" --operations adc --cin "$level" 5 5
done
refuses "not one of work" --vectors 5 5 5
refuses "column 3" --width 3 --flags half-carry 1 1

# The figure: where it cannot be written, and what is there already. A sheet is printed only when all
# went well, and nothing is left behind.
cannot_draw() {
  words=$1
  shift
  status=0
  "$SUMWRIGHT" work 5 5 --svg "$@" >stdout 2>stderr || status=$?
  [ "$status" -eq 4 ] || wrong "status $status, not 4, of: $*"
  [ "$(wc -l <stderr)" -eq 1 ] && grep -q "^sumwright: error: .*$words" stderr ||
    wrong "nothing about '$words' for: $*"
  [ ! -s stdout ] || wrong "standard output for: $*"
  cases=$((cases + 1))
}
refuses "svg is empty" --svg '' 5 5
cannot_draw "No such" nowhere/figure.svg
cannot_draw "folder" .
mkdir there
cannot_draw "folder" there
refuses "a file name is not empty" 5 5 --svg there/
cannot_draw "." /dev/full
echo mine >mine.svg
cannot_draw "use --overwrite" mine.svg
[ "$(cat mine.svg)" = mine ] || wrong "a file was replaced"
"$SUMWRIGHT" work 5 5 --svg mine.svg --overwrite >stdout || wrong "does not overwrite"
grep -q '</svg>' mine.svg || wrong "not overwritten"
"$SUMWRIGHT" work 5 5 --svg mine.svg >again || wrong "the same figure is refused"
diff stdout again || wrong "another sheet with a figure"
(ulimit -f 1 && exec "$SUMWRIGHT" work 5 5 --svg limited.svg >stdout 2>stderr) &&
  wrong "writes past the limit" || status=$?
[ "$status" -eq 4 ] && [ ! -s stdout ] && [ ! -e limited.svg ] || wrong "limit on the size of files"
[ "$(ls -A)" = "$(printf '%s\n' again mine.svg stderr stdout there)" ] || wrong "something is left: $(ls -A)"

# The same sheet, wherever the operands stand and however they are written.
COLUMNS=80
export COLUMNS
"$SUMWRIGHT" work --operation sub 100 -50 >expected
for operands in "-- 100 -50" "0x64 0xce" "0b01100100 206" "100 -- -50" "0X64 -050" \
  "100 --flags carry,overflow,zero,negative -50"; do
  "$SUMWRIGHT" work --operation sub $operands >stdout 2>stderr || wrong "refused: $operands"
  diff expected stdout || wrong "another sheet for $operands"
done
"$SUMWRIGHT" work 100 -50 --operation sub >stdout
diff expected stdout || wrong "another sheet with the options last"
"$SUMWRIGHT" work --operations sub 100 -50 --name addsub8 >stdout
diff expected stdout || wrong "another sheet for the first operation"

# Unless asked, the pin cin brings no carry and no borrow.
"$SUMWRIGHT" work --operations adc 5 7 --cin 0 >expected
"$SUMWRIGHT" work --operations adc 5 7 | diff expected - || wrong "a carry"
"$SUMWRIGHT" work --operations sbc 5 7 --cin 1 >expected
"$SUMWRIGHT" work --operations sbc 5 7 | diff expected - || wrong "a borrow"
"$SUMWRIGHT" work --operations sbc 5 7 --cin 0 --subtract-carry borrow >expected
"$SUMWRIGHT" work --operations sbc 5 7 --subtract-carry borrow | diff expected - || wrong "a borrow"

# The widest unit there is, and nowhere to print.
"$SUMWRIGHT" work --width 4096 --flags all --steps -1 1 >stdout
grep -q "^  column 4095 (sign): 1 + 0 + carry 1 = 0, carry 1$" stdout || wrong "no last step"
"$SUMWRIGHT" work 5 5 >/dev/full 2>stderr && wrong "status 0 with nowhere to print" || status=$?
[ "$status" -eq 4 ] && grep -q "standard output" stderr || wrong "standard output full"
echo "$cases refusals"
