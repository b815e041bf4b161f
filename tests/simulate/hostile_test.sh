#!/bin/sh
# Designs that mean harm, and files that are no designs: never PASS unless the design is right, never a
# hang, nothing left behind, nothing written elsewhere, and the reason in one line.
set -eu
. "$SOURCE/tests/designs/check_all.sh"

# An included pipe into which nobody writes takes no processor time: the clock ends it, meanwhile.
mkdir waits
mkfifo waits/pipe.vh
{ echo '`include "pipe.vh"' && cat "$SOURCE/tests/designs/right/terse.v"; } >waits/waits.v
{ TMPDIR=$folder/waits "$SUMWRIGHT" check --width 4 waits/waits.v || echo "status $?"; } >waited 2>&1 &

check_all "$SOURCE"/tests/designs/hostile/*.*v
designs=$(grep -c '^right ' results)
[ ! -e /tmp/sumwright_dump.vcd ] || { echo "wrong: a dump was written"; exit 1; }

cases=0
wrong() {
  echo "wrong: $1"
  cat stdout stderr
  exit 1
}

# expects STATUS WORDS ARGUMENTS: the verdict line, the only one at its margin, holds the words.
expects() {
  expected=$1 words=$2
  shift 2
  status=0
  "$SUMWRIGHT" check --width 4 --flags none "$@" >stdout 2>stderr || status=$?
  [ $status -eq "$expected" ] || wrong "status $status, not $expected, of: $*"
  [ "$(grep -c '^[^ ]' stdout)" -eq 1 ] || wrong "not one line for: $*"
  grep '^[^ ]' stdout | grep -q -e "$words" || wrong "nothing about '$words' for: $*"
  [ ! -s stderr ] || wrong "standard error for: $*"
  cases=$((cases + 1))
}

mkdir own
cd own
cat >right.v <<'END'
module unit(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
endmodule
END
cp right.v ../right.v
TMPDIR=$folder/temporary

# Names that look like options, that have blanks, quotes, line ends, and what a shell would run.
for name in "two words.v" "it's.v" 'quo"te.v' '$(touch touched).v' ';touch touched.v' '`touch touched`.v' \
  'back\slash.v' 'line
end.v' '*.v' 'ümlaut.v' 'no_ending' '.v' '%s%n.v' 'a&b|c>d.v'; do
  mkdir "in $name"
  cp ../right.v "in $name/$name"
  expects 0 '^PASS' "in $name/$name"
done
cp ../right.v ./-o
cp ../right.v ./--help
expects 0 '^PASS' ./-o
expects 0 '^PASS' -- --help
expects 0 '^PASS' "$PWD/--help"
[ ! -e touched ] || wrong "a shell ran"
cp -r "in two words.v" "in
two lines"
echo '`include "two words.v"' >"in
two lines/includes.v"
expects 0 '^PASS' "in
two lines/includes.v"

# Files that are no designs, and designs that are no units.
expects 3 "there is no such file" missing.v
expects 3 "it is a folder" .
mkfifo pipe.v
expects 3 "no plain file" pipe.v
: >empty.v
expects 3 "is empty" empty.v
printf ' \n\n' >blank.v
expects 3 "is empty" blank.v
printf 'module \001\002' >binary.v
expects 3 "is binary" binary.v
cp "$SUMWRIGHT" program.v
expects 3 "is binary" program.v
echo "The residual is observed minus predicted." >prose.v
expects 3 "prose.v:1: syntax error" prose.v
echo "// module unit" >comment.v
expects 3 "no module" comment.v
sed 's/a - b/a -/' right.v >syntax.v
expects 3 "syntax.v:2: syntax error" syntax.v
sed 's/a - b/a - c/' right.v >unknown.v
expects 3 "unknown.v:2: error: Unable to bind wire/reg/memory .c'" unknown.v
sed 's/endmodule/missing_part p(a);\n&/' right.v >part.v
expects 3 "part.v:3: error: Unknown module type: missing_part" part.v
sed 's/unit/other/' right.v >other.v
expects 3 "add --module unit or --module other" right.v other.v
expects 0 '^PASS' --module other right.v other.v
expects 3 "there is no module 'third'" --module third right.v other.v
sed 's/, input m//; s/m ? a - b : //' right.v >no_control.v
expects 3 "no port for subtract" no_control.v
sed 's/output \[3:0\] s/output [4:0] s/' right.v >wide.v
expects 3 "port 's' has 5 bits, and result of the unit has 4" wide.v
sed 's/input \[3:0\] a/`define W 3\ninput [`W-1:0] a/' right.v >macro.v
expects 3 "port 'a' has 3 bits" macro.v
sed 's/output \[3:0\] s/output [$clog2(64):0] s/' right.v >function.v
expects 3 "port 's' has 7 bits, and result of the unit has 4" function.v
sed 's/input m/input m, go/' right.v >spare.v
expects 3 "port 'go', an input, is no pin of this unit" spare.v
expects 3 "no port 'level'" --port a=level right.v
expects 3 "has no parameter 'LEVELS', which --parameter sets; its parameters are none" \
  --parameter LEVELS=4 right.v
ln -s /etc/passwd link.vh
echo '`include "link.vh"' >linked.v
cat right.v >>linked.v
expects 3 "includes 'link.vh', which is not in its own folder" linked.v

# Text without end, made here: very deep, very long, very many.
repeated() { awk -v count="$1" -v text="$2" 'BEGIN { while (count-- > 0) printf "%s", text }'; }
inside() { sed '$d' right.v && cat inner && echo endmodule; }
{ echo initial && repeated 200000 'begin ' && repeated 200000 'end '; } >inner
inside >big.v
expects 3 "big.v:.*: memory exhausted" big.v
{ echo 'wire w = ' && repeated 200000 '(' && echo m && repeated 200000 ')' && echo ';'; } >inner
inside >big.v
expects 3 "big.v:.*: memory exhausted" big.v
awk 'BEGIN { printf "wire w"; for (k = 0; k < 20000; k++) printf ", w%d", k; print ";" }' >inner
inside >big.v
expects 0 '^PASS' big.v
{ printf '/*' && repeated 1000000 '**' && echo '*/' && cat right.v; } >big.v
expects 0 '^PASS' big.v
{ repeated 100000 '`ifdef X\n' && cat right.v; } >big.v
expects 3 "lacks an" big.v
{ printf 'module ' && repeated 1000000 long && sed 1s/module.unit// right.v; } >big.v
expects 3 "does not compile" big.v
printf 'module unit(input [3:0] a, b, input m, output [3:0] s);\n\000endmodule\n' >nul.v
expects 3 "is binary" nul.v

# What the command line itself has wrong.
refuses() {
  status=0
  "$SUMWRIGHT" check "$@" >stdout 2>stderr || status=$?
  [ $status -eq 2 ] && [ ! -s stdout ] && [ "$(wc -l <stderr)" -eq 1 ] || wrong "not refused: $*"
  cases=$((cases + 1))
}
refuses
refuses --jobs 0 right.v
refuses --latency -1 right.v
refuses --format xml right.v
refuses --parameter W right.v
refuses --parameter 'W=1);endmodule' right.v
refuses --parameter '8=1' right.v
refuses --parameter W=1 --parameter W=2 right.v
mkdir nothing
refuses --each nothing

# Temporary folders: odd names are as good as others, what is none is told in one line.
for name in "two words" "it's" 'quo"te' '$(touch touched)' ';touch touched' '-D' '--' 'line
end' '*' 'ümlaut' 'back\slash' '%s%n'; do
  mkdir "./$name"
  TMPDIR=$PWD/$name expects 0 '^PASS' right.v
  TMPDIR=./$name expects 0 '^PASS' right.v
  rmdir "./$name" || wrong "left behind in $name"
done
[ ! -e touched ] || wrong "a shell ran"
TMPDIR= expects 0 '^PASS' right.v
for name in missing right.v right.v/below /proc "$(repeated 5000 x)"; do
  status=0
  TMPDIR=$name "$SUMWRIGHT" check --width 4 --flags none right.v >stdout 2>stderr || status=$?
  [ $status -eq 4 ] && [ ! -s stdout ] && [ "$(wc -l <stderr)" -eq 1 ] && grep -q "TMPDIR" stderr ||
    wrong "no clear line for TMPDIR=$name"
  cases=$((cases + 1))
done

wait
grep -q "^UNTESTED .*: the compiler is not done with it" ../waited && grep -q "^status 3" ../waited ||
  wrong "a pipe that is included: $(cat ../waited)"
cases=$((cases + 1))

# Without the simulator.
status=0
PATH=/nowhere "$SUMWRIGHT" check right.v >stdout 2>stderr || status=$?
[ $status -eq 4 ] && [ "$(wc -l <stderr)" -eq 1 ] && grep -q "not on the PATH" stderr ||
  wrong "no clear line without a simulator"

# A signal ends the simulator, too, and the temporary folder goes.
for when in TERM,0.05 TERM,0.5 INT,0.02 INT,0.3 HUP,0.1 HUP,0.3 QUIT,0.3; do
  # A shell's background job ignores INT; timeout does not let it.
  signal=${when%,*} status=0
  timeout -s $signal ${when#*,} "$SUMWRIGHT" check --width 4 --flags none --each --jobs 2 \
    "$SOURCE/tests/designs/hostile/endless_loop.v" "$SOURCE/tests/designs/hostile/gate_loop.v" \
    >stdout 2>stderr || status=$?
  [ $status -eq 124 ] || wrong "status $status after $signal"
  [ -z "$(ls -A "$TMPDIR")" ] || wrong "left behind after $signal: $(ls "$TMPDIR")"
  for process in /proc/[0-9]*/cwd; do
    case $(readlink "$process") in "$TMPDIR"*) wrong "still running after $signal: $process" ;; esac
  done
  cases=$((cases + 1))
done
[ -z "$(ls -A "$TMPDIR")" ] || wrong "left behind: $(ls "$TMPDIR")"
echo "$designs hostile designs and $cases odd names, files and signals"
