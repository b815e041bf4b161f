#!/bin/sh
# Every carry structure in every detail, proven equal to an independent description at every output:
# addition and subtraction on one line, where the first carry goes into the columns, at the widths 1
# to 9, 16, 17, 32 and 64; the same with a carry in, where it enters the lowest column, at five.
# Yosys reads the units, all of one width beside one another, and finds no undriven wire and no loop;
# its ABC proves them (cec), which takes far less time than the solver of sat does on wide words.
set -eu
. "$SOURCE/tests/outside/yosys_lib.sh"

# Units of one kind of gate take longest: narrow ones, and 17 bits. EVERY_WIDTH=1 in the environment
# has them at all widths, which takes minutes.
details="operators cells gates"
kinds="nand nor"
structures="ripple fewest skip select lookahead sklansky kogge-stone brent-kung han-carlson ladner-fischer"
units=0
: >proofs.abc

# no_such STRUCTURE DETAIL: combinations that there are not.
no_such() {
  case $1-$2 in
    ripple-operators | fewest-gates | fewest-n*) return 1 ;;
    *-operators | fewest-cells) return 0 ;;
    *) return 1 ;;
  esac
}

# beside NAME FLAGS: adds to NAME.left.v and writes to NAME.right.v the modules NAME_left and
# NAME_right, which have the same pins, an output for each unit in the file list; on the left all of
# them are the description's, on the right the units' own.
beside() {
  awk -v name="$1" -v plain="$1_plain" -v n="$n" -v inputs="$ports" -v pins="$pins" -v flags="$2" '
    function connected(wire, k) {
      text = pins ", .result(" wire "[" n - 1 ":0])"
      for (k = 1; k <= count; k++) text = text ", ." flag[k] "(" wire "[" n + k - 1 "])"
      return text
    }
    BEGIN { count = split(flags, flag, ",") }
    { unit[++units] = $1 }
    END {
      for (k = 1; k <= units; k++) outputs = outputs (k > 1 ? ", " : " ") "output [" n + count - 1 ":0] of_" unit[k]
      left = name ".left.v"
      right = name ".right.v"
      print "module " name "_left (" inputs outputs ");" >>left
      print "wire [" n + count - 1 ":0] exact;\n" plain " description (" connected("exact") ");" >>left
      for (k = 1; k <= units; k++) print "assign of_" unit[k] " = exact;" >>left
      print "endmodule" >>left
      print "module " name "_right (" inputs outputs ");" >right
      for (k = 1; k <= units; k++) print unit[k] " unit" k " (" connected("of_" unit[k]) ");" >right
      print "endmodule" >right
    }' list
}

# least COLUMNS: the levels of cells that so many columns need.
least() {
  levels=0
  while [ $((1 << levels)) -lt "$1" ]; do levels=$((levels + 1)); done
  echo $levels
}

# unit STRUCTURE DETAIL
unit() {
  name=$(echo "${set}_$1_$2" | tr =- __)
  "$SUMWRIGHT" emit --name "$name" --width "$n" --structure "$1" --detail "$2" --operations "$choice" \
    --subtract-carry "$sense" --flags "$(echo "$flags" | tr _ -)" --vectors 0 >emit.log 2>&1 ||
    { cat emit.log; exit 1; }
  echo "$name" >>list
  units=$((units + 1))
}

# prove_width WIDTH CHOICE SENSE COLUMNS: all structures and details of one unit.
prove_width() {
  n=$1 choice=$2 sense=$3
  set=$(echo "w$n$choice" | tr -d ,)
  flags=carry,overflow,zero,negative,less_signed,less_unsigned,parity
  [ "$n" -lt 4 ] || flags=$flags,half_carry
  : >list
  for structure in $structures "depth=$(least "$4")" "depth=$(($(least "$4") + 1))" "depth=$4"; do
    case $structure in depth=0) continue ;; esac
    for detail in $details $([ -n "${EVERY_WIDTH-}" ] || [ "$n" -le 5 ] || [ "$n" -eq 17 ] && echo "$kinds"); do
      name=$(echo "${set}_${structure}_$detail" | tr =- __)
      no_such "$structure" "$detail" || grep -qx "$name" list || unit "$structure" "$detail"
    done
  done
  line=subtract
  [ "$choice" = add,sub ] || line=mode
  operations=$choice
  ports_of
  ports="input $line, ${ports%,}"
  pins=$(echo "$ports" | sed 's/input//g; s/\[[^]]*\]//g; s/ //g; s/\([a-z]*\)/.\1(\1)/g; s/,/, /g')
  describe "$set" "$n" "$sense" wrap "$ports," "${choice%,*}:!$line" "${choice#*,}:$line" >"$set.left.v"
  beside "$set" "$flags"
  for side in left right; do
    cat <<YS
read_verilog $set.$side.v $([ $side = left ] || sed 's/$/.v/' list | tr '\n' ' ')
hierarchy -check -top ${set}_$side; proc; flatten; simplemap; techmap
check -assert
aigmap; write_aiger -symbols $set.$side.aig
design -reset
YS
  done >>proofs.ys
  echo "cec $set.left.aig $set.right.aig" >>proofs.abc
}

# Runs them all; the results are in abc.log.
prove_all() {
  if ! yosys -q -s proofs.ys >yosys.log 2>&1 || grep -i warning yosys.log; then
    tail -n 40 yosys.log
    exit 1
  fi
  yosys-abc -f proofs.abc >abc.log 2>&1 || { tail abc.log; exit 1; }
}

for width in 1 2 3 4 5 6 7 8 9 16 17 32 64; do
  prove_width $width add,sub no-borrow $width
  case $width in 1 | 2 | 3 | 7 | 16) prove_width $width sbc,adc borrow $((width + 1)) ;; esac
done
prove_all
proven=$(grep -c '^Networks are equivalent' abc.log || :)
[ "$proven" -eq "$(wc -l <proofs.abc)" ] || { grep -v equivalent abc.log; echo "wrong: not all are proven"; exit 1; }

# The proof can fail, and says which unit it is: one cell that joins too little.
awk '/^module/ { inside = /prefix_cell/ } inside && /passes *= high/ { sub(/&/, "|") } { print }' \
  w9addsub_sklansky_cells.v >changed.v
! cmp -s changed.v w9addsub_sklansky_cells.v || { echo "wrong: nothing changed"; exit 1; }
mv changed.v w9addsub_sklansky_cells.v
sed -n '/ w9addsub.left.v/,/w9addsub.right.aig/p' proofs.ys >some.ys
mv some.ys proofs.ys
echo "cec w9addsub.left.aig w9addsub.right.aig" >proofs.abc
prove_all
grep -q 'of_w9addsub_sklansky_cells' abc.log && grep -q 'NOT EQUIVALENT' abc.log ||
  { cat abc.log; echo "wrong: a changed cell is not found"; exit 1; }
echo "$units units of $(wc -w <<N
$structures depth
N
) structures are equal to their descriptions"
