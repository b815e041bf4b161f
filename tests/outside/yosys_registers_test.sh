#!/bin/sh
# Registers: Yosys proves each emitted unit, clock by clock, equal to an independent description, the
# plain one of yosys_lib.sh between registers that are written as a case of reset and enable. The
# clock and the reset are signals like any other here (clk2fflogic), so that a register that looks at
# another edge, or a reset that waits for one, is told apart.
#
# The proof is by induction (equiv_induct): whatever happens, registers and pins that were alike stay
# alike. The input registers are called as the unit calls them so that the proof can pair them up;
# were they called otherwise, it would fail, not succeed.
set -eu
. "$SOURCE/tests/outside/yosys_lib.sh"

# "input [3:0] a, input cin," gives "[3:0]:a :cin".
entries() { echo "$1" | sed 's/input *\(\[[^]]*\]\) *\([a-z_]*\),/\1:\2/g; s/input *\([a-z_]*\),/:\1/g'; }

# The registered description, ${name}_clocked, around the plain one with the ports $inputs.
describe_clocked() {
  pins="input clk," clear="1'b0" loading="1'b1" edges="posedge clk"
  case $reset-$level in
    none-*) ;;
    *-high) pins="$pins input rst," clear=rst ;;
    *-low) pins="$pins input rst_n," clear="!rst_n" ;;
  esac
  case $reset-$level in
    async-high) edges="$edges or posedge rst" ;;
    async-low) edges="$edges or negedge rst_n" ;;
  esac
  [ -z "$enable" ] || { pins="$pins input en," loading=en; }
  flags="carry overflow zero negative less_signed less_unsigned parity"
  [ "$n" -lt 4 ] || flags="$flags half_carry"
  declared= connections= loads= clears=
  for entry in $(entries "$inputs"); do
    pin=${entry##*:}
    if [ $registers = both ]; then
      declared="$declared reg ${entry%:*} ${pin}_held;"
      connections="$connections .$pin(${pin}_held),"
      loads="$loads ${pin}_held <= $pin;" clears="$clears ${pin}_held <= 0;"
    else
      connections="$connections .$pin($pin),"
    fi
  done
  echo "module ${name}_clocked ($pins $inputs"
  for flag in $flags; do
    echo "  output reg $flag,"
    declared="$declared wire made_$flag;"
    connections="$connections .$flag(made_$flag),"
    loads="$loads $flag <= made_$flag;"
    case $flag in zero) clears="$clears zero <= 1;" ;; *) clears="$clears $flag <= 0;" ;; esac
  done
  echo "  output reg [$n-1:0] result); $declared wire [$n-1:0] made_result;"
  echo "${name}_plain plain ($connections .result(made_result));"
  loads="$loads result <= made_result;" clears="$clears result <= 0;"
  # Yosys finds an asynchronous reset in an `if` alone.
  echo "always @($edges)"
  if [ $reset = async ]; then
    echo "  if ($clear) begin $clears end else case ($loading) 1'b1: begin $loads end default: ; endcase"
  else
    echo "  casez ({$clear, $loading}) 2'b1?: begin $clears end 2'b01: begin $loads end default: ; endcase"
  fi
  echo "endmodule"
}

# prove_clocked GATE: the module GATE, the unit or what wraps it, equals the description.
prove_clocked() {
  cat >>proofs.ys <<YS
log proof $proofs: $n bits, $sense, $rule, $detail, $control $operations, $registers $reset $level $enable
read_verilog $name.v ${name}_plain.v
hierarchy -check; proc; flatten; opt_clean
equiv_make ${name}_clocked $1 equal
hierarchy -top equal
clk2fflogic; opt_clean
equiv_simple -undef -seq 3
equiv_induct -undef -seq 4
equiv_status -assert
design -reset
YS
}

# unit CONTROL_PORTS CHOICES: proves a unit of the properties that the variables hold.
unit() {
  emit_unit $width $sense $rule $detail $control $operations --registers $registers --reset $reset \
    $([ $reset = none ] || echo "--reset-level $level") $enable
  ports_of
  inputs="$1 $ports"
  describe $name $n $sense $rule "$inputs" $2 >${name}_plain.v
  describe_clocked >>${name}_plain.v
  prove_clocked $name
}

# The next of three ways to choose, with its turn of the other properties.
turn=0
next_unit() {
  turn=$((turn + 1))
  case $((turn % 3)) in 0) detail=operators ;; 1) detail=cells ;; 2) detail=gates ;; esac
  case $((turn % 2)) in 0) sense=no-borrow ;; 1) sense=borrow ;; esac
  case $((turn % 5)) in 0) rule=saturate-signed ;; 1) rule=saturate-unsigned ;; *) rule=wrap ;; esac
  case $((turn % 4)) in
    0) control=fixed operations=sbc && unit "" "sbc:1" ;;
    1) control=low operations=add,sub && unit "input subtract," "add:subtract sub:!subtract" ;;
    2) control=code operations=adc,rsb,neg && unit "input [1:0] op," "adc:op==0 rsb:op==1 neg:op==2" ;;
    3) control=code operations=dec=11,pass=01 && unit "input [1:0] op," "dec:op==3 pass:op==1" ;;
  esac
}

for widths in "4" "1 8 16"; do
  for registers in output both; do
    for enable in "" --enable; do
      for kind in none-high sync-high sync-low async-high async-low; do
        reset=${kind%-*} level=${kind#*-}
        width=${widths%% *}
        widths="${widths#* } $width"
        next_unit
      done
    done
  done
done
run_proofs

# The proof can fail: not one of these changed units is proven.
refuted=0
refute() {
  sed "$1" right.v >$name.v
  ! cmp -s $name.v right.v || { echo "wrong: nothing changed by $1"; exit 1; }
  ! yosys -q -s proofs.ys >yosys.log 2>&1 || { echo "wrong: proven with $1"; exit 1; }
  grep -q "Unproven\|unproven" yosys.log || { tail yosys.log; echo "wrong: no proof was tried with $1"; exit 1; }
  refuted=$((refuted + 1))
}
: >proofs.ys
width=4 registers=both reset=async level=low enable=--enable turn=2
next_unit
cp $name.v right.v
for change in "s/posedge clk/negedge clk/" "s/ or negedge rst_n//" "s/if (!rst_n)/if (rst_n)/; s/negedge/posedge/" \
  "s/else if (en)/else/" "s/else if (en)/else if (!en)/" "s/zero <= 1'b1/zero <= 1'b0/" \
  "s/ a_held <= a;/ a_held <= b;/" "s/ carry <= carry_next;/ carry <= overflow_next;/" \
  "s/ a_held <= {.*/ a_held <= {4{1'b1}};/"; do
  refute "$change"
done
: >proofs.ys
width=4 registers=output reset=sync level=high enable= turn=2
next_unit
cp $name.v right.v
refute "s/(posedge clk)/(posedge clk or posedge rst)/"
refute "s/ if (rst)/ if (1'b0)/"
echo "$refuted changed units are not proven"
