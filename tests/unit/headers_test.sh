#!/bin/sh
# The comment that opens each generated file, over the units that pairwise.c chooses: it states every
# operation with what selects it, what is selected by nothing, every pin of the module, the sense of
# the carries, reset and latency; and the command in it, run in an empty folder, makes the same files
# again byte for byte. What must be stated follows from the options here, not from the program.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
"${CC:-cc}" -o choose "$SOURCE/tests/simulate/pairwise.c"
./choose | sed -n 's/^unit //p' >units
mkdir bin
ln -s "$SUMWRIGHT" bin/sumwright
PATH=$folder/bin:$PATH

# stated.awk: from the options of each unit, the lines that must stand in its comments (blanks
# squeezed), each after the unit's number and "+ ", or after "- " the starts of lines that must not.
cat >stated.awk <<'AWK'
function must(text) { print NR " + " text }
function never(text) { print NR " - " text }
function binary(value, bits,  text) {
  for (text = ""; bits > 0; bits--) { text = value % 2 text; value = int(value / 2) }
  return text
}
BEGIN {
  split("add adc sub sbc rsb inc dec neg pass", name)
  split("a + b|a + b + carry|a - b|a - b - borrow|b - a|a + 1|a - 1|-a|a", formula, "|")
  for (k in name) means[name[k]] = formula[k]
}
{
  enable = 0; result = "result"; a = "a"
  split("", value); split("", does)
  for (k = 1; k <= NF; k++) {
    if ($k == "--enable") enable = 1
    else if ($k == "--port") { split($(k + 1), port, "="); if (port[1] == "a") a = port[2]; else result = port[2]; k++ }
    else { value[$k] = $(k + 1); k++ }
  }
  count = split(value["--operations"], item, ",")
  control = value["--control"]; width = value["--width"]; borrow = value["--subtract-carry"] == "borrow"
  for (bits = 1; 2 ^ bits < count; bits++);
  adds = subtracts = pass = reads_b = 0
  for (k = 1; k <= count; k++) {
    code = binary(k - 1, bits)
    if (split(item[k], part, "=") == 2) { code = part[2]; bits = length(code) }
    op = part[1]
    does[op] = 1
    if (op ~ /^(add|adc|inc)$/) adds = 1
    if (op ~ /^(sub|sbc|rsb|dec|neg)$/) subtracts = 1
    if (op ~ /^(add|adc|sub|sbc|rsb)$/) reads_b = 1
    line = item[1] == "add" && item[2] == "sub" ? "subtract" : "mode"
    where = ""
    if (control == "high") where = " where " line " is " k - 1
    if (control == "low") where = " where " line " is " 2 - k
    if (control == "one-hot") where = " where do_" op " is 1"
    if (control == "code") where = " where op is " code
    must(op " " means[op] where)
    if (control == "one-hot") must("do_" op " requests " op)
  }
  nothing = " asks for nothing: result 0, zero 1, every other flag 0."
  if (control == "one-hot") must("Anything else at the request pins" nothing)
  else if (control == "code" && count < 2 ^ bits) must("Anything else at op" nothing)
  else never("Anything else")
  if (control == "one-hot") must("Several requests at once are outside the contract of this unit.")
  if (control == "high" || control == "low") must(line " chooses the operation")
  if (control == "code") must("op chooses the operation")
  must(a " first operand, a")
  if (reads_b) must("b second operand, b"); else never("b second")
  if ("adc" in does) must("cin in adc: carry, 1 adds one more")
  if ("sbc" in does) must("cin in sbc: " (borrow ? "borrow, 1 subtracts one more" : "no borrow, 0 subtracts one more"))
  rule = value["--overflow"]; sub(/saturate-/, "", rule)
  must(result " the exact result" (rule == "wrap" ? ", modulo 2^" width : "; the nearest " rule " number where it does not fit"))
  flags = "," value["--flags"] ","
  if (flags == ",all,") flags = ",carry,overflow,zero,negative,less-signed,less-unsigned,parity," (width < 4 ? "" : "half-carry,")
  if (flags ~ /,carry,/) {
    if (adds) must("carry in addition: carry, the exact unsigned result is 2^" width " or more"); else never("carry in addition")
    if (subtracts) must("carry in subtraction: " (borrow ? "borrow, the exact unsigned result is below 0" : "no borrow, the exact unsigned result is not below 0"))
    else never("carry in subtraction")
    if ("pass" in does) must(adds || subtracts ? "carry in pass: always 0" : "carry always 0: there is nothing to carry")
  } else never("carry ")
  if (flags ~ /,overflow,/) must("overflow the exact signed result does not fit")
  if (flags ~ /,zero,/) must("zero the result is 0")
  if (flags ~ /,negative,/) must("negative the sign bit of the result")
  if (flags ~ /,less-signed,/) must("less_signed the exact signed result is below 0")
  if (flags ~ /,less-unsigned,/) must("less_unsigned the exact unsigned result is below 0")
  if (flags ~ /,parity,/) must("parity an odd number of the bits of the result is 1")
  if (flags ~ /,half-carry,/) must("half_carry what carry says, for the lowest four bits alone")
  if (value["--registers"] == "none") { must("Without registers: the outputs follow the inputs."); never("Latency"); next }
  must("clk clock, rising edge")
  must("Latency: " (value["--registers"] == "both" ? "2 clock edges" : "1 clock edge") \
       " from the operands at the pins to their result at the pins;")
  must("new operands may come with every clock.")
  if (value["--reset"] != "none")
    must((value["--reset-level"] == "low" ? "rst_n " : "rst ") value["--reset"] "hronous reset, active " \
         value["--reset-level"] ": result 0, zero 1, every other flag 0")
  if (enable) must("en clock enable; while it is 0 the registers hold")
}
AWK

# found.awk: what is stated, then the files of the units (first/NUMBER/NAME): what is missing or too
# much in the comment of each; the pins of the module that no line of it begins with; and, into
# again.sh, the command in it, which is the same in all three.
cat >found.awk <<'AWK'
FNR == NR {
  number = $1; kind = $2; sub(/^[0-9]+ [+-] /, "")
  if (kind == "+") wanted[number, ++wants[number]] = $0; else banned[number, ++bans[number]] = $0
  next
}
function amiss(text) { print number " " name ": " text }
function end_file(  text) {
  for (text in left) amiss("missing: " text)
  if (commands != 1) amiss(commands + 0 " commands")
  if (name == "unit.v") {
    first_command = command
    print "(cd again/" number " && " command ") >emit.log 2>&1 || fails " number >"again.sh"
    if (pins < 2) amiss("no pins at all")
  } else if (command != first_command) amiss("another command")
}
FNR == 1 {
  if (name != "") end_file()
  split(FILENAME, part, "/"); number = part[2]; name = part[3]
  split("", left); split("", stated)
  commands = pins = listed = 0; commenting = 1
  for (k = 1; k <= wants[number]; k++) left[wanted[number, k]] = 1
}
!/^\/\// { commenting = 0 }
name == "unit.v" && /^\/\/   [A-Za-z_]/ { stated[$2] = 1 }
name == "unit.v" && !listed && /^    (input|output) / {
  pin = $NF; sub(/,$/, "", pin); pins++
  if (!(pin in stated)) amiss("no pin " pin)
}
/^\);/ { listed = 1 }
!commenting { next }
/^\/\/ Made by: / { commands++; command = substr($0, 13) }
{ gsub(/ +/, " "); sub(/^\/\/ ?/, ""); delete left[$0]
  for (k = 1; k <= bans[number]; k++) if (index($0, banned[number, k]) == 1) amiss("too much: " $0) }
END { end_file() }
AWK

# wrong WHAT NUMBER
wrong() {
  echo "wrong: $1"
  echo "  $SUMWRIGHT emit --name unit $(sed -n "$2p" units)"
  exit 1
}

units=$(wc -l <units)
[ "$units" -gt 100 ] || wrong "only $units units" 1
mkdir first again
(cd first && seq "$units" | xargs mkdir)
(cd again && seq "$units" | xargs mkdir)
number=0
while read -r line; do
  number=$((number + 1))
  sumwright emit --name unit --out first/$number --vectors 5 $line >emit.log 2>&1 || { cat emit.log; wrong "emit fails" $number; }
done <units
awk -f stated.awk units >stated
seq "$units" | sed 's/.*/first\/&\/unit.v first\/&\/unit_tb.v first\/&\/unit.vec/' | xargs -n 100000 awk -f found.awk stated >amiss
[ ! -s amiss ] || { head -n 20 amiss; wrong "a comment" "$(sed 's/ .*//; q' amiss)"; }
[ "$(wc -l <again.sh)" -eq "$units" ] || wrong "not every unit has its command" 1
fails() {
  cat emit.log
  wrong "the command in the comment fails" $1
}
. ./again.sh
diff -rq first again >differ || { cat differ; wrong "the command makes other files" "$(sed 's/[^0-9]*//; s/[^0-9].*//; q' differ)"; }
echo "the comments of $units units say what they must, and their commands make them again"
