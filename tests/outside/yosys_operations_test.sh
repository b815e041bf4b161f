#!/bin/sh
# Every operation under every control style at 1, 4, 8 and 16 bits, in each detail: each operation
# alone, by one line of either level, by one-hot requests (at most one at once, as the contract has
# it) and by codes, used and unused; and every carry structure. Yosys proves each emitted unit equal
# to an independent description and reads it without a warning.
set -eu
. "$SOURCE/tests/outside/yosys_lib.sh"

# The unit behind a decoder, so that at most one request is 1.
one_hot() { # width sense rule detail operations
  emit_unit "$1" "$2" "$3" "$4" one-hot "$5"
  ports_of
  choices= requests= k=0
  for operation in $(echo "$operations" | tr , ' '); do
    choices="$choices $operation:pick==$k"
    requests="$requests .do_$operation(pick == $k),"
    k=$((k + 1))
  done
  outs="output [$n-1:0] result, output carry, output overflow, output zero, output negative, output less_signed, output less_unsigned, output parity"
  pins=$(echo "$ports" | sed 's/input//g; s/\[[^]]*\]//g; s/ *\([a-z]*\),/.\1(\1),/g')
  [ "$n" -lt 4 ] || outs="$outs, output half_carry"
  outpins=$(echo "$outs" | sed 's/output//g; s/\[[^]]*\]//g; s/ *\([a-z_]*\)/.\1(\1)/g')
  describe $name "$n" "$sense" "$rule" "input [3:0] pick, $ports" $choices >${name}_plain.v
  echo "module ${name}_decoded (input [3:0] pick, $ports $outs); $name unit ($requests $pins $outpins); endmodule" \
    >>${name}_plain.v
  prove ${name}_decoded
}

# Codes by position, or those given: operation=code.
code() { # width sense rule detail bits operations [OPTIONS]
  bits=$5
  n=$1 sense=$2 rule=$3 detail=$4 operations=$6
  shift 6
  emit_unit "$n" "$sense" "$rule" "$detail" code "$operations" "$@"
  choices= k=0
  for choice in $(echo "$operations" | tr , ' '); do
    value=$k
    case $choice in *=*) value="$bits'b${choice#*=}" ;; esac
    choices="$choices ${choice%%=*}:op==$value"
    k=$((k + 1))
  done
  operations=$(echo "$operations" | sed 's/=[01]*//g')
  ports_of
  range=
  [ "$bits" -eq 1 ] || range="[$bits-1:0]"
  describe $name "$n" "$sense" "$rule" "input $range op, $ports" $choices >${name}_plain.v
  prove $name
}

# The next sense and overflow rule: all six by turns.
turn=0
next_turn() {
  turn=$((turn + 1))
  case $((turn % 2)) in 0) sense=no-borrow ;; 1) sense=borrow ;; esac
  case $((turn % 3)) in 0) rule=wrap ;; 1) rule=saturate-signed ;; 2) rule=saturate-unsigned ;; esac
}

all=add,adc,sub,sbc,rsb,inc,dec,neg,pass
for detail in operators cells gates; do
  for width in 1 4 8 16; do
    for operation in $(echo $all | tr , ' '); do
      next_turn
      alone $width $sense $rule $detail $operation
    done
    # each operation first and second, under both levels
    for two in add,rsb rsb,sbc sbc,dec dec,adc adc,pass pass,inc inc,neg neg,sub sub,add; do
      for control in high low; do
        next_turn
        pair $width $sense $rule $detail $control $two
      done
    done
    next_turn
    one_hot $width $sense wrap $detail $all
    next_turn
    code $width $sense saturate-signed $detail 4 $all
  done
  for sense in no-borrow borrow; do
    one_hot 4 $sense saturate-unsigned $detail add,sub
    one_hot 4 $sense saturate-signed $detail inc,dec,pass
    code 5 $sense saturate-unsigned $detail 3 sbc=101,inc=010,add=110
    code 4 $sense wrap $detail 2 add,sub,neg,rsb
    code 4 $sense wrap $detail 1 dec,adc
  done
done

# The structures. Five columns of carries take three levels of prefix cells at least.
for width in 1 4; do
  for structure in skip select lookahead sklansky kogge-stone brent-kung han-carlson ladner-fischer \
    depth=3 depth=4; do
    for detail in gates cells; do
      next_turn
      code $width $sense $rule $detail 4 $all --structure $structure
    done
  done
  next_turn
  code $width $sense $rule gates 1 inc,dec --structure fewest
  for two in add,sub adc,sbc sbc,rsb; do
    next_turn
    code $width $sense $rule gates 1 $two --structure fewest
  done
done
for operation in add sub rsb inc dec neg pass sbc; do
  for structure in brent-kung select lookahead; do
    next_turn
    alone 5 $sense $rule cells $operation --structure $structure
  done
done
run_proofs
