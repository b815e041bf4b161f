#!/bin/sh
# The other operations and control styles: each operation alone, one-hot requests (at most one at
# once, as the contract has it) and codes, used and unused. Yosys proves each emitted unit equal to
# an independent description and reads it without a warning.
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
code() { # width sense rule detail bits operations
  emit_unit "$1" "$2" "$3" "$4" code "$6"
  bits=$5 choices= k=0
  for choice in $(echo "$6" | tr , ' '); do
    value=$k
    case $choice in *=*) value="$bits'b${choice#*=}" ;; esac
    choices="$choices ${choice%%=*}:op==$value"
    k=$((k + 1))
  done
  operations=$(echo "$6" | sed 's/=[01]*//g')
  ports_of
  range=
  [ "$bits" -eq 1 ] || range="[$bits-1:0]"
  describe $name "$n" "$sense" "$rule" "input $range op, $ports" $choices >${name}_plain.v
  prove $name
}

alone() { # width sense detail operation
  emit_unit "$1" "$2" wrap "$3" fixed "$4"
  ports_of
  describe $name "$1" "$2" wrap "$ports" "$4:1" >${name}_plain.v
  prove $name
}

all=add,adc,sub,sbc,rsb,inc,dec,neg,pass
for detail in operators cells gates; do
  for sense in no-borrow borrow; do
    for operation in rsb inc dec neg pass; do
      alone 4 $sense $detail $operation
    done
    for width in 1 4; do
      one_hot $width $sense wrap $detail $all
      code $width $sense saturate-signed $detail 4 $all
    done
    one_hot 4 $sense saturate-unsigned $detail add,sub
    one_hot 4 $sense saturate-signed $detail inc,dec,pass
    code 5 $sense saturate-unsigned $detail 3 sbc=101,inc=010,add=110
    code 4 $sense wrap $detail 2 add,sub,neg,rsb
    code 4 $sense wrap $detail 1 dec,adc
  done
  one_hot 8 no-borrow wrap $detail $all
  code 8 borrow saturate-signed $detail 4 $all
  one_hot 16 borrow wrap $detail $all
  code 16 no-borrow wrap $detail 4 $all
  for operation in rsb inc dec neg pass; do
    alone 1 no-borrow $detail $operation
    alone 16 borrow $detail $operation
  done
done
alone 8 borrow operators rsb
alone 8 no-borrow cells inc
alone 8 borrow gates dec
alone 8 no-borrow cells neg
alone 8 borrow operators pass
run_proofs
