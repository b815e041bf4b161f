#!/bin/sh
# Units whose pins have the very names that the text uses inside, names with $, and long ones: the
# compilers stay silent and the simulation passes. The names inside must give way (identifier.h).
set -eu
. "$SOURCE/tests/simulate/lib.sh"

# lints: Verilator has nothing to say about the unit either.
lints() {
  verilator --lint-only -Wall u.v >lint.log 2>&1 || { cat lint.log; wrong "Verilator complains"; }
  [ ! -s lint.log ] || { cat lint.log; wrong "Verilator warns"; }
}

# try OPTIONS: every detail that has a text of its own, without registers and with both.
try() {
  for detail in operators cells gates; do
    for registers in none both; do
      simulate --width 4 --vectors 20 --detail $detail --registers $registers "$@"
      lints
    done
  done
}

# The adder's names on the outputs, the row's on the inputs.
try --flags all --port result=sum --port a=carry_in --port b=i --port carry=column \
  --port overflow=adder --port zero=operand_b --port negative=first_carry \
  --port less_signed=total --port less_unsigned=overflows --port parity=below_zero \
  --port half_carry=first_adder --port subtract=invert_b

# Gates and their wires are numbered: names with those numbers.
try --flags all --port result=propagate_3 --port a=carry_1 --port b=sum_0 --port carry=generated_2 \
  --port overflow=passed_1 --port zero=any_0 --port negative=odd_0 --port parity=operand_b_0 \
  --port half_carry=term_9 --port less_signed=operand_a_1 --port less_unsigned=unmasked_0

# Gates of one kind: their steps and inverses are called after the gates.
for detail in nand nor; do
  simulate --width 4 --vectors 20 --detail $detail --flags all --port result=propagate_first_3 \
    --port a=not_generated_1 --port b=sum_inner_0 --port carry=not_sum_2 --port overflow=not_a_1 \
    --port zero=overflows_first --port negative=not_subtract --port parity=operand_b_second_0 \
    --port half_carry=term_9 --port less_signed=sum_first_1 --port subtract=not_carry_4
  lints
  simulate --width 4 --vectors 20 --detail $detail --structure kogge-stone \
    --operations sub,adc,inc --port a=not_op_0 --port op=not_op --port result=not_not_op
  lints
done

# Decoding of codes, with one unused so that the result is masked.
try --flags all --operations add,sub,adc,sbc,rsb,inc,neg --port a=do_add --port b=do_sub \
  --port cin=use_cin --port op=active --port result=delivered --port carry=use_b \
  --port overflow=invert_a --port zero=set_carry --port negative=subtracting --port parity=used_cin \
  --port less_signed=carry_wanted --port less_unsigned=invert_cin --port half_carry=do_inc

# Saturation.
try --flags all --overflow saturate-signed --port a=fitted --port b=nearest --port result=sum \
  --port carry=too_low --port overflow=too_high --port zero=raised_0 --port negative=below_zero \
  --port parity=overflows --port less_signed=fitted_0 --port less_unsigned=delivered_1 \
  --port half_carry=borrows
try --flags all --overflow saturate-unsigned --port a=fitted --port b=too_low \
  --port result=too_high --port carry=borrows --port overflow=raised_1 --port zero=sum

# One-hot requests; the first column's half adder, the sign column's carry, the unread last carry.
try --control one-hot --operations add,sub,neg --port do_add=sum --port do_sub=active \
  --port do_neg=invert_a --port result=fitted --port a=delivered --port b=operand_a
try --operations add --flags overflow --port a=into_sign --port b=one_column \
  --port result=more_columns --port overflow=first_adder
try --operations add --flags none --port a=unused_carry --port b=carry_out --port result=sum
try --operations add --flags carry --port a=sum --port b=sum_w --port result=sum_w_w \
  --port carry=total

# Where the text has no parameter, its name is a pin's as well.
simulate --width 4 --vectors 20 --detail gates --port a=WIDTH
lints

# The names beside registers, the cells' own pin names, and the roles exchanged.
try --port a=b_held --port b=a_held --port result=carry_next --port carry=result_next \
  --port zero=subtract_held
try --port a=cin --port b=cout --port result=propagate --port carry=sum --port subtract=a_next
try --port a=b --port b=a --port result=carry --port carry=result

# The testbench's own names; its wires are called by the roles.
try --port a=memory --port b=driven --port result=count --port carry=k --port overflow=limit \
  --port zero=BITS --port negative=OUT

# Dollars, and 200 characters; names that differ only in their last character.
try --port 'a=a$' --port 'b=_$1' --port 'result=sum$' --port 'carry=_' --port 'zero=z$$0'
long=$(printf '%0199d' 0 | tr 0 p)
try --flags all --port "a=${long}1" --port "b=${long}2" --port "result=${long}3" \
  --port "carry=${long}4" --port "subtract=${long}5"

# The columns and carries of the structures in cells; a pin called WIDTH where there is no parameter.
cells() {
  simulate --width 5 --vectors 20 --detail cells "$@"
  lints
}
cells --structure brent-kung --port a=generates --port b=passes --port result=sum --port carry=carry_1 \
  --port overflow=half_sum --port zero=generates_3_2 --port negative=passes_4 --port subtract=turned_a
cells --structure lookahead --operations adc,sbc --port a=carries --port b=WIDTH --port cin=carry_4 \
  --port result=passes_3_0 --port carry=level_1 --port zero=generates_4 --port mode=carry_0
cells --structure select --operations sub,add --port a=turned_b --port b=turned_a --port result=group_1 \
  --port carry=carries --port mode=carry_or_borrow_2 --port zero=passes --port overflow=carry_2

echo "$cases units pass"
