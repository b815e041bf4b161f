#!/bin/sh
# Marking a folder: an aligned table and JSON that say the same, in an order and with an output that do
# not depend on how many are checked at once, and the status of the worst.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

wrong() {
  echo "wrong: $1"
  exit 1
}

mkdir class
for k in 1 2 3 4; do
  cat >class/right$k.v <<END
module unit$k(input [3:0] a, b, input m, output [3:0] s);
  assign s = m ? a - b : a + b;
endmodule
END
done
sed 's/a - b/b - a/' class/right1.v >class/swapped.v
sed 's/a - b/a + ~b/' class/right1.v >class/without_one.v
echo "module unfinished(" >class/broken.v
echo "nothing" >class/notes.txt

check() {
  status=0
  "$SUMWRIGHT" check --width 4 --flags none --each "$@" 2>stderr || status=$?
  [ ! -s stderr ] || wrong "standard error: $(cat stderr)"
}
check --jobs 1 class >one
[ $status -eq 1 ] || wrong "status $status of a folder with a wrong design"
cat >expected <<'END'
design               verdict   mistake              first bad column
class/broken.v       UNTESTED  -                    -
class/right1.v       PASS      -                    -
class/right2.v       PASS      -                    -
class/right3.v       PASS      -                    -
class/right4.v       PASS      -                    -
class/swapped.v      WRONG     operands-swapped     1
class/without_one.v  WRONG     first-carry-missing  0
UNTESTED class/broken.v: it does not compile: class/broken.v:1: syntax error
END
# The line is the compiler's to say.
sed 's/broken.v:[0-9]*:/broken.v:1:/' one | diff expected - || wrong "not the table"
for jobs in 2 5 100; do
  check --jobs $jobs class >several
  cmp one several || wrong "other output with $jobs jobs"
done
check class/right2.v class/right1.v >two
[ $status -eq 0 ] || wrong "status $status of right designs"
[ "$(sed -n '2s/ .*//p' two)" = class/right2.v ] || wrong "not in the order of the command line"
check class/right1.v class/broken.v >two
[ $status -eq 3 ] || wrong "status $status of a right design and one that is none"

check --format json --jobs 3 class >json
[ "$(grep -c '"verdict": "PASS"' json)" -eq 4 ] || wrong "not four designs pass in JSON"
grep -q '"name": "operands-swapped"' json || wrong "no mistake in JSON"
grep -q '"share": 1.0000' json || wrong "no share in JSON"

# A check that comes to grief is told of that design alone: its simulator or itself is ended by a
# signal, or it finds no memory. The first line of a design says which.
mkdir tools ended
for tool in iverilog vvp; do
  cat >tools/$tool <<END
#!/bin/sh
read -r line <design1.v
case \$line in
  "// the check is ended") kill -KILL \$PPID ;;
  "// $tool crashes") kill -SEGV \$\$ ;;
  "// $tool is ended") kill -KILL \$\$ ;;
esac
exec $(command -v $tool) "\$@"
END
  chmod +x tools/$tool
done
cp class/right1.v ended
cp class/swapped.v ended
for end in "the check is ended" "iverilog crashes" "vvp crashes" "vvp is ended"; do
  { echo "// $end" && cat class/right1.v; } >"ended/$(echo "$end" | tr ' ' _).v"
done
real=$PATH
PATH=$PWD/tools:$PATH
check --jobs 2 ended >one
[ $status -eq 1 ] || wrong "status $status with a wrong design"
grep -q '^UNTESTED ended/the_check_is_ended.v: its check was ended by signal 9' one &&
  grep -q '^UNTESTED ended/iverilog_crashes.v: the compiler ends without a result' one &&
  grep -q '^UNTESTED ended/vvp_crashes.v: the simulator ends without a result' one &&
  grep -q '^UNTESTED ended/vvp_is_ended.v: the simulator ends without a result' one &&
  grep -q '^ended/right1.v .* PASS' one && grep -q '^ended/swapped.v .* operands-swapped' one ||
  wrong "a check that ends is not told of its design alone: $(cat one)"
check ended/right1.v ended/the_check_is_ended.v >one
[ $status -eq 3 ] || wrong "status $status of a check that is ended"
PATH=$real

# No memory for the vectors of any design: a problem of the surroundings, in one line.
sed 's/3:0/511:0/g' class/right1.v >wide.v
status=0
(ulimit -v 100000 && exec "$SUMWRIGHT" check --width 512 --flags none --vectors 1000000 wide.v) \
  >one 2>stderr || status=$?
[ $status -eq 4 ] && [ ! -s one ] && [ "$(wc -l <stderr)" -eq 1 ] && grep -q "out of memory" stderr ||
  wrong "status $status without memory: $(cat one stderr)"

# Designs are told apart by their whole names; what would disturb a line is a question mark.
mkdir names
long=$(awk 'BEGIN { while (k++ < 40) printf "long" }')
for name in müller "two words" "$long" "$(printf 'red\033[31m\302\233')"; do
  cp class/right1.v "names/$name.v"
done
check names >one
for name in names/müller.v "'names/two words.v'" "names/$long.v" "'names/red?\[31m??.v'"; do
  grep -q "^$name  *PASS" one || wrong "no row for $name: $(cat one)"
done

# Under --each no design has its neighbour's text, by whatever link; what is beside them both is shared.
mkdir copied
cp class/right1.v copied/right.v
ln copied/right.v copied/linked
ln -s right.v copied/pointed.vh
for name in right.v linked pointed.vh; do echo "\`include \"$name\"" >"copied/copies_${name%.*}.v"; done
printf 'wire [3:0] nothing;\n' >copied/shared.vh
sed 's/^endmodule/`include "shared.vh"\nendmodule/' class/right1.v >copied/shares.v
check copied >one
[ "$(grep -c 'UNTESTED copied/copies.*is another design' one)" -eq 3 ] && grep -q '^copied/shares.v  *PASS' one ||
  wrong "a design may include its neighbour: $(cat one)"

# A flag that is left out stands in the table and in JSON, where it was not asked for.
"$SUMWRIGHT" check --width 4 --each class/right1.v >one
grep -q 'left out of the test' one && grep -q 'PASS .* carry overflow zero negative' one || wrong "left out in silence: $(cat one)"
"$SUMWRIGHT" check --width 4 --format json class/right1.v | grep -q '"left_out": "carry overflow zero negative"' ||
  wrong "left out in silence in JSON"

# Every run ends with a verdict, or an error and its status.
status=0
"$SUMWRIGHT" check --width 4 --flags none class/right1.v >&- 2>stderr || status=$?
[ $status -eq 4 ] && grep -q 'cannot write to standard output' stderr || wrong "status $status with standard output closed"
for nowhere in /dev/null/x "$(awk 'BEGIN { while (k++ < 5000) printf "d" }')"; do
  status=0
  TMPDIR=$nowhere "$SUMWRIGHT" check --width 4 --flags none class/right1.v >one 2>stderr || status=$?
  [ $status -eq 4 ] && [ "$(wc -l <stderr)" -eq 1 ] || wrong "status $status without a temporary folder"
done

# This program's own reading has limits: a parameter for each of a thousand readings of a long range.
awk 'BEGIN {
  printf "module unit #(parameter P0 = 0"
  for (k = 1; k < 30000; k++) printf ", P%d = 0", k
  for (zeros = "0"; length(zeros) < 4000000; zeros = zeros zeros) {}
  print ") (input [" zeros "3:0] a, b, input m, output [3:0] s); assign s = a + b; endmodule"
}' >large.v
status=0
"$SUMWRIGHT" check --width 8 --flags none large.v >one 2>&1 || status=$?
[ $status -eq 3 ] && grep -q 'more processor time than a check has' one || wrong "reading has no limit: $(cut -c 1-300 one)"

# One design whose file has two modules of a name in another file is still two designs with --each.
status=0
"$SUMWRIGHT" check --width 4 --flags none class/right1.v class/right2.v >one || status=$?
[ $status -eq 3 ] || wrong "two units in one design"
grep -q "add --module unit1 or --module unit2" one || wrong "not asked which"

# Which inputs a design without a clock does not follow when they change alone.
for stale in "unexplained_list_control:not follow m alone" \
  "unexplained_list_operand:not follow cin and b alone" "bit_stuck_latch:not follow a and b alone" \
  "first_carry_list:not follow m alone"; do
  design=$SOURCE/tests/designs/wrong/${stale%%:*}.v
  "$SUMWRIGHT" check $(sed -n 's|^// options: ||p' "$design") "$design" >one || [ $? -eq 1 ]
  grep -q "the outputs do ${stale#*:}: " one || wrong "inputs that are not followed: $(cat one)"
done

# The report shown in docs/marking.md is what is said.
cp "$SOURCE/tests/designs/wrong/unexplained_list_control.v" .
"$SUMWRIGHT" check --width 8 --flags carry unexplained_list_control.v >one || [ $? -eq 1 ]
sed -n '/^    WRONG unexplained_list_control/,/^$/s/^    //p' "$SOURCE/docs/marking.md" >shown
[ "$(wc -l <shown)" -eq 4 ] && cmp one shown || wrong "another report in docs/marking.md"

# The README's wrong tide residual is the one in docs/, and is told as the README says.
cd "$SOURCE"
sed -n '/^module tide_residual/,/^endmodule/p' README.md >"$folder/shown"
sed 1d docs/residual.v | cmp - "$folder/shown" || wrong "another design in the README"
"$SUMWRIGHT" check --width 12 --operations sub --flags carry,zero --port a=observed \
  --port b=predicted docs/residual.v >"$folder/said" || [ $? -eq 1 ]
sed -n '/^    WRONG/,/^$/s/^    //p' README.md | sed '/^$/d' >"$folder/shown"
head -n 2 "$folder/said" | cmp - "$folder/shown" || wrong "another verdict in the README"
echo "a folder of seven designs is marked alike, whatever the jobs"
