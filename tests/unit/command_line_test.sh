#!/bin/sh
# Bad input through the real program: one line on standard error, the right status, nothing on
# standard output, nothing written.
set -eu
folder=$(mktemp -d)
trap 'umount "$folder/small" 2>/dev/null || :; rm -rf "$folder"' EXIT
cd "$folder"
mkdir out
cases=0

wrong() {
  echo "wrong: $1"
  cat stdout stderr
  exit 1
}

# refuses STATUS WORDS ARGUMENTS: the message holds the words.
refuses() {
  expected=$1 words=$2
  shift 2
  status=0
  "$SUMWRIGHT" "$@" >stdout 2>stderr || status=$?
  [ "$status" -eq "$expected" ] || wrong "status $status, not $expected, of: $*"
  [ "$(wc -l <stderr)" -eq 1 ] || wrong "not one line for: $*"
  grep -q '^sumwright: error: ' stderr || wrong "no error for: $*"
  grep -q -e "$words" stderr || wrong "nothing about '$words' for: $*"
  [ ! -s stdout ] || wrong "standard output for: $*"
  [ -z "$(ls -A out)" ] || wrong "something written for: $*"
  cases=$((cases + 1))
}

# invalid WORDS OPTIONS: emit refuses them with status 2.
invalid() {
  words=$1
  shift
  refuses 2 "$words" emit --out out "$@"
}

refuses 2 "no command"
refuses 2 "no command 'draft'" draft
invalid "'--widht'" --widht 8
invalid "--width is given twice" --width 8 --width 9
invalid "lacks its value" --width
invalid "takes no 'add'" add
for width in 0 4097 -1 1e3 8x '' ' 8' 99999999999999999999; do
  invalid "1 to 4096" --width "$width"
done
for name in '' 8bit 'a b' "a'b" 'a"b' 'a\b' 'a
b' a/b 'a;b' .. 'a`b'; do
  invalid "not a Verilog name" --name "$name"
done
invalid "keyword" --name endmodule
invalid "1025 characters" --name "$(printf '%01025d' 0 | tr 0 n)"
invalid "not a Verilog name" --port 'a=x;y'
invalid "keyword" --port result=reg
invalid "one name, 'x'" --port a=x --port b=x
invalid "module's own name" --port a=addsub8
invalid "WIDTH" --port a=WIDTH
invalid "its pins are" --port cin=c
invalid "twice" --port a=x --port a=y
invalid "ROLE=NAME" --port ab
invalid "lists add twice" --operations add,add
invalid "does not know 'mul'" --operations add,mul
invalid "does not know ''" --operations add,
invalid "one length" --operations add=00,sub=1
invalid "same code" --operations add=01,sub=01
invalid "does not fit" --operations add=0,sub=1,inc
invalid "binary number" --operations add=2,sub=1
invalid "binary number" --operations add=01010101010101010,sub=1
invalid "no op" --operations add=0,sub=1 --control one-hot
invalid "no pin to choose" --control fixed
invalid "chooses between two" --operations add,sub,inc --control high
invalid "nothing to choose" --operations add --control one-hot
invalid "column 3" --width 3 --flags half-carry
invalid "twice" --flags zero,zero
invalid "does not know" --flags zero,
invalid "does not know ''" --flags ''
invalid "ripple" --structure kogge-stone
invalid "lacks its levels" --structure depth
invalid "gates" --detail nand
invalid "nothing to reset" --reset sync
invalid "nothing to reset" --reset-level low
invalid "without a reset pin" --registers output --reset none --reset-level low
invalid "no clock" --enable
invalid "no-borrow or borrow" --subtract-carry yes
invalid "0 to 1000000" --vectors 1000001
invalid "0 to 1000000" --vectors -1
invalid "empty" --templates ''

# Surroundings.
refuses 4 "nowhere" emit --out nowhere
: >file
refuses 4 "file" emit --out file
if mkdir small && mount -t tmpfs -o size=16k tmpfs small 2>/dev/null; then
  refuses 4 "No space" emit --out small
  [ -z "$(ls -A small)" ] || wrong "something left on the full disk"
  mount -o remount,ro small
  refuses 4 "Read-only" emit --out small
  umount small
else
  echo "(no mount here: the full and the read-only disk are left to unit/files)"
fi
"$SUMWRIGHT" emit --help >/dev/full 2>stderr && wrong "status 0 with nowhere to print" || status=$?
[ "$status" -eq 4 ] && grep -q "standard output" stderr || wrong "standard output full"

# What is there already.
echo mine >addsub8.v
"$SUMWRIGHT" emit >stdout 2>stderr && wrong "replaces a file" || status=$?
[ "$status" -eq 4 ] && grep -q -e --overwrite stderr && [ "$(cat addsub8.v)" = mine ] || wrong "kept file"
[ ! -e addsub8_tb.v ] || wrong "half of the files are there"
"$SUMWRIGHT" emit --overwrite >stdout || wrong "does not overwrite"
grep -q "^module addsub8" addsub8.v || wrong "not overwritten"
"$SUMWRIGHT" emit >stdout || wrong "same content is refused"

# Templates of one's own.
mkdir style
echo '// Harbour course, unit ${name}' >style/header.v
"$SUMWRIGHT" emit --out out --templates style >stdout || wrong "a template is refused"
[ "$(head -n 1 out/addsub8.v)" = "// Harbour course, unit addsub8" ] || wrong "template not taken"
rm out/*
printf 'one\n${nonesuch}\n' >style/header.v
invalid "header.v:2" --templates style
invalid "missing" --templates missing

# Stopped in mid-write: the folder is as it was.
"$SUMWRIGHT" emit --width 4096 --vectors 200000 --out out >stdout 2>stderr &
until ls -A out | grep -q .; do sleep 0.01; done
kill $!
wait $! && wrong "not stopped" || :
[ -z "$(ls -A out)" ] || wrong "something left after a signal"
echo "$cases refusals"
