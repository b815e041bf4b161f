#!/bin/sh
# The testbench itself: every output pin wrong, stuck or undriven must FAIL with a status that is
# not 0, and so must every damaged vector file.
set -eu
. "$SOURCE/tests/simulate/lib.sh"

flags="carry overflow zero negative less_signed less_unsigned parity half_carry"

# Each pin inverted, stuck at 0, 1, X and Z, the result bit by bit.
emit --width 4 --operations add,sub --flags all --detail operators
cp u.v right.v
for pin in $flags; do
  for value in "~(\\1)" "1'b0" "1'b1" "1'bx" "1'bz"; do
    sed "s/assign $pin = \(.*\);/assign $pin = $value;/" right.v >u.v
    ! cmp -s u.v right.v || wrong "nothing changed at $pin"
    compile u.v u_tb.v
    fails
  done
done
for bit in 1 2 4 8; do
  for value in "sum ^ 4'd$bit" "sum | 4'd$bit" "sum \\& ~4'd$bit"; do
    sed "s/assign result = sum;/assign result = $value;/" right.v >u.v
    ! cmp -s u.v right.v || wrong "nothing changed at the result"
    compile u.v u_tb.v
    fails
  done
done
for value in "4'bxxxx" "4'bzzzz" "{sum[3:1], 1'bx}"; do
  sed "s/assign result = sum;/assign result = $value;/" right.v >u.v
  compile u.v u_tb.v
  fails
done

# Registers: reset, enable or a stage missing.
emit --width 3 --operations add,sub --registers both --enable --detail operators
cp u.v right.v
for change in "s/ if (rst)/ if (1'b0)/" "s/ if (rst)/ if (!rst)/" "s/else if (en)/else/" \
  "s/a_held <= a;/a_held <= b;/" "s/operand_b = b_held/operand_b = b/" "s/zero <= 1'b1/zero <= 1'b0/"; do
  sed "$change" right.v >u.v
  ! cmp -s u.v right.v || wrong "nothing changed by $change"
  iverilog -g2005 -o u.vvp u.v u_tb.v
  fails
done

# Vector files: missing, empty, cut, longer, with a wrong count.
emit --width 4 --operations add,sub --detail cells
compile u.v u_tb.v
passes
cp u.vec right.vec
lines=$(wc -l <right.vec)
damaged() { # label
  options="vectors $1"
  fails
}
rm u.vec && damaged missing
: >u.vec && damaged empty
echo "// many vectors" >u.vec && damaged "without a count"
head -n 1 right.vec >u.vec && damaged "of a first line"
head -n 100 right.vec >u.vec && damaged "cut after a line"
head -n $((lines - 1)) right.vec >u.vec && damaged "without its end"
head -c 2000 right.vec >u.vec && damaged "cut within a line"
head -c $(($(wc -c <right.vec) - 3)) right.vec >u.vec && damaged "cut within its end"
sed 30d right.vec >u.vec && damaged "short of a line"
sed '30{p;}' right.vec >u.vec && damaged "with a line twice"
sed '1s/[0-9][0-9]*/511/' right.vec >u.vec && damaged "of a lesser count"
sed '1s/[0-9][0-9]*/513/' right.vec >u.vec && damaged "of a greater count"
sed '1s/[0-9][0-9]*/99999999/' right.vec >u.vec && damaged "of a huge count"
mkdir "a folder"
mv right.vec "a folder/v.vec"
options="+vectors"
fails
vvp -n u.vvp "+vectors=a folder/v.vec" | grep -q "^PASS u: 512 vectors$" || wrong "+vectors is not read"

# At most ten lines about mismatches, or as many as +limit says; one closing line; +dump.
sed -i 's/assign carry = /assign carry = ~/' u.v
cp "a folder/v.vec" u.vec
compile u.v u_tb.v
fails
[ "$(grep -c ^mismatch simulate.log)" -eq 10 ] || wrong "not ten mismatches"
fails +limit=3 +dump
[ "$(grep -c ^mismatch simulate.log)" -eq 3 ] || wrong "not three mismatches"
[ -s u.vcd ] || wrong "no dump"
echo "$cases wrong units and vector files fail"
