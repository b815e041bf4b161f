#!/bin/sh
# Designs that mean harm, and files that are no designs: never PASS unless the design is right, never a
# hang, nothing left behind, nothing written elsewhere, and the reason in one line.
set -eu
. "$SOURCE/tests/designs/check_all.sh"
check_all "$SOURCE"/tests/designs/hostile/*.v
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
expects 3 "port 's' has 7 bits, and its pin of the unit has 4" function.v
sed 's/input m/input m, go/' right.v >spare.v
expects 3 "port 'go', an input, is no pin of this unit" spare.v
expects 3 "no port 'level'" --port a=level right.v
ln -s /etc/passwd link.vh
echo '`include "link.vh"' >linked.v
cat right.v >>linked.v
expects 3 "includes 'link.vh', which is not in its own folder" linked.v

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

# Without the simulator.
status=0
PATH=/nowhere "$SUMWRIGHT" check right.v >stdout 2>stderr || status=$?
[ $status -eq 4 ] && [ "$(wc -l <stderr)" -eq 1 ] && grep -q "not on the PATH" stderr ||
  wrong "no clear line without a simulator"

# A signal ends the simulator, too, and the temporary folder goes.
for signal in TERM INT HUP; do
  for seconds in 0.05 0.3 1; do
    # A shell's background job ignores INT; timeout does not let it.
    status=0
    timeout -s $signal $seconds "$SUMWRIGHT" check --width 4 --flags none --each --jobs 2 \
      "$SOURCE/tests/designs/hostile/endless_loop.v" "$SOURCE/tests/designs/hostile/gate_loop.v" \
      >stdout 2>stderr || status=$?
    [ $status -eq 124 ] || wrong "status $status after $signal"
    [ -z "$(ls -A "$TMPDIR")" ] || wrong "left behind after $signal: $(ls "$TMPDIR")"
    for process in /proc/[0-9]*/cwd; do
      case $(readlink "$process") in "$TMPDIR"*) wrong "still running after $signal: $process" ;; esac
    done
    cases=$((cases + 1))
  done
done
[ -z "$(ls -A "$TMPDIR")" ] || wrong "left behind: $(ls "$TMPDIR")"
echo "$designs hostile designs and $cases odd names, files and signals"
