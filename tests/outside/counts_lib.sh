# Sourced by the tests that have Yosys recount emitted units; in a temporary folder that it makes.
# POSIX sh; SUMWRIGHT is the program.
#
#   emit_counted NAME OPTIONS   emits NAME.v and keeps what emit says of it, "N gates, L levels", in
#                               NAME.said
#   count_all                   has Yosys count all of them
#   counted NAME                prints "N gates, L levels" as Yosys counts them
#   yosys_runs SCRIPT           runs a Yosys script, or shows what went wrong and stops
#
# An inverter at an input of AND or OR, or at a gate's output, belongs to that gate, and one at an
# output pin is no gate; so Yosys counts the cells of two inputs, and inverters are made wires before
# the levels are counted (which changes what the circuit computes, but no path). Nothing is optimised
# before: Yosys would spare the inverters of units of one kind of gate.

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
: >count.ys

cat >wire.v <<'V'
module \$_NOT_ (input A, output Y);
  assign Y = A;
endmodule
V

emit_counted() {
  name=$1
  shift
  "$SUMWRIGHT" emit --name "$name" --vectors 0 "$@" >emit.log 2>&1 || { cat emit.log; exit 1; }
  sed -n 's/^circuit *\([0-9]*\) two-input gates*, \([0-9]*\) levels*.*/\1 gates, \2 levels/p' \
    emit.log >"$name.said"
  [ -s "$name.said" ] || { echo "emit says nothing of the circuit: $*"; cat emit.log; exit 1; }
  cat >>count.ys <<YS
read_verilog $name.v
hierarchy -check; proc -noopt; opt_clean; simplemap
tee -q -o $name.stat stat
techmap -map wire.v; opt_clean
tee -q -o $name.ltp ltp
design -reset
YS
}

counted() {
  awk '/ \$_(AND|OR|XOR|NAND|NOR|XNOR)_ / { gates += $2; next }
       / \$_NOT_ / { next }
       /^     [^ ]* +[0-9]+$/ { print "cell " $1 " is no gate"; exit }
       /length=/ { sub(/.*length=/, ""); sub(/\).*/, ""); levels = $0 }
       END { print gates + 0 " gates, " levels + 0 " levels" }' "$1.stat" "$1.ltp"
}

yosys_runs() {
  yosys -q -s "$1" >yosys.log 2>&1 || { tail -n 20 yosys.log; exit 1; }
}

count_all() { yosys_runs count.ys; }
