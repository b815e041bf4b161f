# Sourced by the Yosys tests. Writes descriptions of units, independently of how sumwright writes
# them: plain a - b and comparisons in two bits more than the words, instead of complements and
# carries; and has Yosys prove the emitted units equal to them. POSIX sh; SUMWRIGHT is the program.

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
proofs=0
: >proofs.ys

# The exact results of one operation, in two bits more than the words: unsigned u, signed s.
exact() { # operation
  case $1 in
    add) echo "u = ua + ub; s = sa + sb;" ;;
    adc) echo "u = ua + ub + c; s = sa + sb + c;" ;;
    sub) echo "u = ua - ub; s = sa - sb;" ;;
    sbc) echo "u = ua - ub - w; s = sa - sb - w;" ;;
    rsb) echo "u = ub - ua; s = sb - sa;" ;;
    inc) echo "u = ua + 1; s = sa + 1;" ;;
    dec) echo "u = ua - 1; s = sa - 1;" ;;
    neg) echo "u = 0 - ua; s = 0 - sa;" ;;
    pass) echo "u = ua; s = sa;" ;;
  esac
}

# The same on the lowest four bits, for half-carry.
half() { exact "$1" | sed 's/; s = .*/;/; s/ua/ha/g; s/ub/hb/g; s/^u/h/'; }

borrows() {
  case $1 in sub | sbc | rsb | neg | dec) echo 1 ;; *) echo 0 ;; esac
}

# The description: name, width, sense, overflow rule, header of ports, then operation:condition ...
describe() {
  name=$1 n=$2 sense=$3 rule=$4 ports=$5
  shift 5
  cin="1'b0"
  case $ports in *cin*) cin=cin ;; esac
  b="{$n{1'b0}}"
  case $ports in *"] b,"*) b=b ;; esac
  borrow_in="~$cin"
  [ "$sense" = no-borrow ] || borrow_in=$cin
  low=$n
  [ "$n" -lt 4 ] || low=4
  echo "module ${name}_plain ($ports output reg [$n-1:0] result, output reg carry,"
  echo "  output reg overflow, output reg zero, output reg negative, output reg less_signed,"
  echo "  output reg less_unsigned, output reg parity"
  [ "$n" -lt 4 ] || echo "  , output reg half_carry"
  echo ");"
  [ "$n" -ge 4 ] || echo "reg half_carry;"
  echo "wire [$n-1:0] bb = $b;"
  echo "wire signed [$n+1:0] ua = {2'b0, a}, ub = {2'b0, bb};"
  echo "wire signed [$n+1:0] sa = {{2{a[$n-1]}}, a}, sb = {{2{bb[$n-1]}}, bb};"
  echo "wire signed [$n+1:0] c = {{$n+1{1'b0}}, $cin}, w = {{$n+1{1'b0}}, $borrow_in};"
  echo "wire signed [$n+1:0] ha = {{$n+2-$low{1'b0}}, a[$low-1:0]}, hb = {{$n+2-$low{1'b0}}, bb[$low-1:0]};"
  echo "wire signed [$n+1:0] top = (1 <<< ($n-1)) - 1, bottom = -(1 <<< ($n-1)), most = (1 <<< $n) - 1;"
  echo "reg signed [$n+1:0] u, s, h;  reg borrows, any;"
  echo "always @* begin"
  echo "  u = 0; s = 0; h = 0; borrows = 0; any = 0;"
  for choice; do
    operation=${choice%%:*}
    echo "  if (${choice#*:}) begin any = 1; borrows = $(borrows "$operation"); $(exact "$operation") $(half "$operation") end"
  done
  echo "  result = u[$n-1:0];"
  case $rule in
    saturate-signed) echo "  if (s > top) result = top; else if (s < bottom) result = bottom;" ;;
    saturate-unsigned) echo "  if (u < 0) result = 0; else if (u > most) result = most;" ;;
  esac
  echo "  overflow = s > top || s < bottom;"
  echo "  less_signed = s < 0; less_unsigned = u < 0;"
  if [ "$sense" = no-borrow ]; then
    echo "  carry = borrows ? u >= 0 : u > most; half_carry = borrows ? h >= 0 : h > $(((1 << low) - 1));"
  else
    echo "  carry = borrows ? u < 0 : u > most; half_carry = borrows ? h < 0 : h > $(((1 << low) - 1));"
  fi
  echo "  zero = result == 0; negative = result[$n-1]; parity = ^result;"
  echo "  if (!any) begin carry = 0; half_carry = 0; end"
  echo "end endmodule"
}

# emit_unit WIDTH SENSE RULE DETAIL CONTROL OPERATIONS [OPTIONS]: the next unit, u1, u2, ...
emit_unit() {
  proofs=$((proofs + 1))
  name=u$proofs
  n=$1 sense=$2 rule=$3 detail=$4 control=$5 operations=$6
  shift 6
  "$SUMWRIGHT" emit --name $name --width "$n" --subtract-carry "$sense" --overflow "$rule" \
    --detail "$detail" --control "$control" --operations "$operations" --flags all --vectors 0 \
    --out . "$@" >emit.log 2>&1 || { cat emit.log; exit 1; }
}

# prove GOLD: adds the proof that the last unit, or what wraps it, equals the description, and is
# defined wherever the inputs are. The solver is given the words as they are read: to open them into
# gates first takes ten times as long as the proof.
prove() {
  cat >>proofs.ys <<YS
log proof $proofs: $n bits, $sense, $rule, $detail, $control $operations
read_verilog $name.v ${name}_plain.v
hierarchy -check; proc; flatten; opt_clean
miter -equiv -flatten $1 ${name}_plain miter
hierarchy -top miter
sat -verify -enable_undef -set-def-inputs -prove trigger 0 miter
design -reset
YS
}

# The operand and carry ports that a list of operations has, at n bits.
ports_of() {
  ports="input [$n-1:0] a,"
  case ,$operations, in *add,* | *adc,* | *sub,* | *sbc,* | *rsb,*) ports="$ports input [$n-1:0] b," ;; esac
  case ,$operations, in *,adc,* | *,sbc,*) ports="$ports input cin," ;; esac
}

# One operation without a control pin.
alone() { # width sense rule detail operation [--structure S]
  emit_unit "$1" "$2" "$3" "$4" fixed "$5" ${6:+"$6" "$7"}
  ports_of
  describe $name "$n" "$sense" "$rule" "$ports" "$operations:1" >${name}_plain.v
  prove $name
}

# Two operations, "first,second", and one control line.
pair() { # width sense rule detail control operations
  emit_unit "$1" "$2" "$3" "$4" "$5" "$6"
  ports_of
  pin=mode first=${operations%,*} second=${operations#*,}
  [ "$operations" != add,sub ] || pin=subtract
  at_0=$first at_1=$second
  [ "$control" = high ] || at_0=$second at_1=$first
  describe $name "$n" "$sense" "$rule" "input $pin, $ports" "$at_0:!$pin" "$at_1:$pin" >${name}_plain.v
  prove $name
}

# Runs all proofs: they must hold, and Yosys must warn of nothing.
run_proofs() {
  if ! yosys -q -s proofs.ys >yosys.log 2>&1 || grep -i warning yosys.log; then
    tail -n 40 yosys.log
    exit 1
  fi
  echo "$proofs proofs hold"
}
