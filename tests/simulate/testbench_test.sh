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

# Registers: each slip of a register, reset or enable. A slip is a change of the right unit's text.
slip() { # sed script ...
  for change; do
    sed "$change" right.v >u.v
    ! cmp -s u.v right.v || wrong "nothing changed by $change"
    iverilog -g2005 -o u.vvp u.v u_tb.v 2>compile.log || { cat compile.log; wrong "$change does not compile"; }
    options="$register_options; the unit changed by $change"
    fails
  done
}

# registers OPTIONS: the right unit passes; slips follow.
registers() {
  register_options="--detail operators $*"
  simulate $register_options
  cp u.v right.v
}

# alone REGISTER EDGES STATEMENT: a change that gives the register an always block of its own.
alone() {
  echo "/ $1 </d; s/^endmodule/always @($2) $3 endmodule/"
}

reset="if (rst) result <= 0; else"
bubble="s/^endmodule/reg busy = 0; always @(posedge clk) busy <= !busy; endmodule/"
for stages in output both; do
  registers --width 3 --registers $stages --enable
  sed "$(alone result "posedge clk" "$reset if (en) result <= result_next;")" right.v >u.v
  compile u.v u_tb.v
  passes
  slip "s/ if (rst)/ if (1'b0)/" "s/ if (rst)/ if (!rst)/" "s/ if (rst)/ if (rst \\&\\& en)/" \
    "s/(posedge clk)/(posedge clk or posedge rst)/" "s/(posedge clk)/(negedge clk)/" \
    "s/zero <= 1'b1/zero <= 1'b0/" "s/carry <= 1'b0/carry <= 1'b1/" \
    "s/result <= {WIDTH{1'b0}}/result <= {WIDTH{1'b1}}/" \
    "s/else if (en)/else/" "s/else if (en)/else if (!en)/" \
    "s/else if (en)/else if (en \\&\\& !busy)/; $bubble" \
    "$(alone result "posedge clk" "$reset result <= result_next;")" \
    "$(alone result "posedge clk" "if (en) result <= result_next;")" \
    "$(alone result "negedge clk" "$reset if (en) result <= result_next;")" \
    "$(alone result "*" "$reset if (en) result <= result_next;")" \
    "$(alone result "*" "$reset if (en \\&\\& clk) result <= result_next;")" \
    "$(alone result "*" "$reset if (en \\&\\& !clk) result <= result_next;")" \
    "s/output reg  \\(.*\\) result/output wire \\1 result/; $(alone result "*" ";")
     s/result_next = \\(.*\\);/result_next = \\1; assign result = result_next;/"
done

# The input registers, which only two stages have.
slip "$(alone a_held "posedge clk" "a_held <= a;")" "$(alone a_held "*" "if (en) a_held <= a;")" \
  "$(alone a_held "negedge clk" "if (en) a_held <= a;")" \
  "$(alone a_held "*" "if (en \\&\\& clk) a_held <= a;")" \
  "$(alone a_held "*" "if (en \\&\\& !clk) a_held <= a;")" \
  "s/a_held <= a;/a_held <= b;/" "s/operand_b = b_held/operand_b = b/"

# A reset of the other kind or level; no reset at all.
for stages in output both; do
  registers --width 3 --registers $stages --reset async
  slip "s/ or posedge rst//" "s/ if (rst)/ if (1'b0)/" "s/if (rst)/if (!rst)/; s/posedge rst/negedge rst/"
  registers --width 3 --registers $stages --reset sync --reset-level low
  slip "s/(posedge clk)/(posedge clk or negedge rst_n)/" "s/ if (!rst_n)/ if (rst_n)/" "s/ if (!rst_n)/ if (1'b0)/"
  registers --width 3 --registers $stages --reset none
  slip "s/(posedge clk)/(negedge clk)/" "s/(posedge clk)/(posedge clk) if (!busy)/; $bubble"
done

# A stage too many, a stage too few: the other unit under the same testbench.
emit --operations add,sub --registers both
cp u.v two_stages.v
emit --operations add,sub --registers output
cp u.v one_stage.v
compile two_stages.v u_tb.v
fails
emit --operations add,sub --registers both
compile one_stage.v u_tb.v
fails

# The smallest units have two vectors, and show all the same what a reset and an enable do.
for operation in inc pass; do
  for stages in output both; do
    registers --width 1 --operations $operation --registers $stages --enable
    slip "s/ if (rst)/ if (1'b0)/" "s/else if (en)/else/" "s/ if (rst)/ if (rst \\&\\& en)/"
  done
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
head -c 4001 right.vec >u.vec && damaged "cut within a line"
head -c $(($(wc -c <right.vec) - 3)) right.vec >u.vec && damaged "cut within its end"
sed 100d right.vec >u.vec && damaged "short of a line"
sed '100{p;}' right.vec >u.vec && damaged "with a line twice"
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
