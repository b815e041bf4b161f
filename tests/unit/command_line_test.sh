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
refuses 2 "no command '?'" "$(printf '\033')"
invalid "'--widht'" --widht 8
invalid "--width is given twice" --width 8 --width 9
invalid "--enable is given twice" --registers both --enable --enable
invalid "no value" --enable=1
invalid "'-xy'" --width 8 -xy
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
invalid "WIDTH" --name WIDTH
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
invalid "depth=3 or more" --structure depth=2
invalid "to the synthesizer" --structure skip --detail operators
invalid "use --detail gates" --structure fewest --detail cells
invalid "lacks its number" --structure depth
invalid "nothing to reset" --reset sync
invalid "nothing to reset" --reset-level low
invalid "without a reset pin" --registers output --reset none --reset-level low
invalid "chooses between two" --operations add --control low
invalid "nothing to reset" --registers none --reset async
invalid "no op" --operations add=0,sub=1 --control low
invalid "same code" --operations add=1,sub
invalid "no circuit" --structure fewest --operations add,sub,inc
invalid "no circuit" --structure fewest --operations add,neg
invalid "no circuit" --structure fewest --control one-hot
invalid "no circuit" --structure fewest --operations add=00,sub=01
invalid "no cells" --structure fewest --detail cells
invalid "no clock" --enable
invalid "no-borrow or borrow" --subtract-carry yes
invalid "0 to 1000000" --vectors 1000001
invalid "0 to 1000000" --vectors -1
invalid "empty" --templates ''
invalid "plain file name" --coverage ../seen.json

# The coverage file appears with the others, or none does.
mkdir whole
refuses 2 "written twice" emit --out whole --coverage addsub8.v
[ -z "$(ls -A whole)" ] || wrong "something left beside the coverage"
"$SUMWRIGHT" emit --out whole --coverage seen.json --width 12 --vectors 0 >stdout ||
  wrong "--coverage fails"
[ "$(ls whole | wc -l)" -eq 4 ] && grep -q '"operations": \[' whole/seen.json || wrong "no coverage file"

# Without random vectors the compact set stays, and the report says what is lost.
grep -q '^vectors .* compact set, .*; none at random: ' stdout || wrong "--vectors 0 says nothing"
grep -q '^faults .* all caught by the first [0-9]* vectors$' stdout || wrong "no strength line"
grep -q '^proof    equal to the definition for all 2^25 inputs$' stdout || wrong "no proof line"
grep -q '^coverage 2/2 operations, 16/16 flag levels, ' stdout || wrong "no coverage line"

# Surroundings.
refuses 4 "nowhere" emit --out nowhere
: >file
refuses 4 "file" emit --out file

# A folder that may not be written to: root may write to any, so it runs as somebody else.
mkdir closed
chmod 555 closed
chmod 755 .
if [ "$(id -u)" -ne 0 ]; then
  refuses 4 "Permission denied" emit --out closed
else
  program=$SUMWRIGHT
  cp "$program" program
  printf '#!/bin/sh\nexec setpriv --reuid 65534 --clear-groups "%s/program" "$@"\n' "$folder" >nobody
  chmod 755 program nobody
  SUMWRIGHT=$folder/nobody
  refuses 4 "Permission denied" emit --out closed
  SUMWRIGHT=$program
fi

# No room: a limit on the size of files everywhere, a small disk and a read-only one where this may
# mount them.
mkdir limited
(ulimit -f 8 && exec "$SUMWRIGHT" emit --out limited >stdout 2>stderr) && wrong "writes past the limit" ||
  status=$?
[ "$status" -eq 4 ] && [ "$(wc -l <stderr)" -eq 1 ] && [ ! -s stdout ] || wrong "limit on files"
grep -q '^sumwright: error: .*File too large' stderr || wrong "another reason than the limit"
[ -z "$(ls -A limited)" ] || wrong "something left at the limit"
if mkdir small && mount -t tmpfs -o size=16k tmpfs small 2>/dev/null; then
  refuses 4 "No space" emit --out small
  [ -z "$(ls -A small)" ] || wrong "something left on the full disk"
  mount -o remount,ro small
  refuses 4 "Read-only" emit --out small
  umount small
else
  echo "(no mount here: the limit and the closed folder above stand for the full and the read-only disk)"
fi
for arguments in "emit --help" --help --version; do
  "$SUMWRIGHT" $arguments >/dev/full 2>stderr && wrong "status 0 with nowhere to print" || status=$?
  [ "$status" -eq 4 ] && grep -q "standard output" stderr || wrong "standard output full"
  "$SUMWRIGHT" $arguments >stdout 2>stderr || wrong "$arguments fails"
  [ -s stdout ] && [ ! -s stderr ] || wrong "$arguments says nothing"
done
grep -q '^sumwright [0-9.]*$' stdout || wrong "no version"

# What is there already.
echo mine >addsub8.v
"$SUMWRIGHT" emit >stdout 2>stderr && wrong "replaces a file" || status=$?
[ "$status" -eq 4 ] && grep -q -e --overwrite stderr && [ "$(cat addsub8.v)" = mine ] || wrong "kept file"
[ ! -e addsub8_tb.v ] && [ ! -e addsub8.vec ] || wrong "half of the files are there"
"$SUMWRIGHT" emit --overwrite >stdout || wrong "does not overwrite"
grep -q "^module addsub8" addsub8.v || wrong "not overwritten"
touch -t 200001010000 addsub8.v addsub8_tb.v addsub8.vec
before=$(ls -il addsub8.v addsub8_tb.v addsub8.vec)
for overwrite in "" --overwrite; do
  "$SUMWRIGHT" emit $overwrite >stdout || wrong "same content is refused"
  [ "$(ls -il addsub8.v addsub8_tb.v addsub8.vec)" = "$before" ] || wrong "same content is touched"
done

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
until ls -A out | grep -q .; do
  kill -0 $! || wrong "ended by itself"
  sleep 0.01
done
kill $!
wait $! && wrong "not stopped" || :
[ -z "$(ls -A out)" ] || wrong "something left after a signal"
echo "$cases refusals"
