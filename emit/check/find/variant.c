/* See variant.h. */
#include "check/find/variant.h"

#include "model/adder.h"

void variant_reverse(Word *to, const Word *from) {
    word_zero(to, from->width);
    for (unsigned bit = 0; bit < from->width; bit++)
        word_put(to, from->width - 1 - bit, word_bit(from, bit));
}

/* ---- what is done -------------------------------------------------------------------------- */

/* Is one the other with Y complemented, and a first carry that is the other's complement? */
static bool are_opposite(Operation one, Operation other) {
    const OperationFacts *left = operation_facts(one), *right = operation_facts(other);
    bool same_y = addend_is_constant(left->y) || addend_is_constant(right->y)
                      ? addend_is_constant(left->y) && addend_is_constant(right->y)
                      : addend_pin(left->y) == addend_pin(right->y);
    return left->x == right->x && same_y && left->y != right->y &&
           left->reads_cin == right->reads_cin &&
           adder_first_at_rest(one) != adder_first_at_rest(other);
}

static int opposite_choice(const Unit *unit, int choice) {
    if (unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW)
        return 1 - choice;
    for (int k = 0; k < unit->choice_count && choice != UNIT_NOTHING; k++)
        if (are_opposite(unit->choice[k].operation, unit->choice[choice].operation))
            return k;
    return choice;
}

int variant_choice(const Unit *unit, const Variant *variant, uint32_t control) {
    if (variant->code_reversed) {
        uint32_t reversed = 0;
        for (unsigned bit = 0; bit < unit_control_bits(unit); bit++)
            reversed = reversed << 1 | (control >> bit & 1);
        control = reversed;
    }
    int choice = unit_control_choice(unit, control);
    return variant->control_reversed ? opposite_choice(unit, choice) : choice;
}

/* ---- what is added ------------------------------------------------------------------------- */

/* Zeros from this bit on. */
static void keep_low(Word *word, unsigned kept) {
    unsigned width = word->width;
    word_resize_unsigned(word, word, kept);
    word_resize_unsigned(word, word, width);
}

static void operand(Word *to, const Word *from, bool reversed, const Variant *variant, Cut alone) {
    if (reversed)
        variant_reverse(to, from);
    else
        word_resize_unsigned(to, from, from->width);
    if (variant->cut == alone || variant->cut == CUT_OPERANDS)
        keep_low(to, variant->kept);
}

static void invert(Word *word, PlainOperand how) {
    bool is_zero = word_is_zero(word);
    switch (how) {
    case OPERAND_INVERTED:
        word_not(word, word);
        break;
    case OPERAND_BIT_0:
        word_put(word, 0, !word_bit(word, 0));
        break;
    case OPERAND_LOGICAL:
        word_zero(word, word->width);
        word_put(word, 0, is_zero);
        break;
    case OPERAND_PLAIN:
    case OPERAND_PLAIN_SUM:
        break;
    }
}

/* The first carry. */
static bool first_carry(const Unit *unit, const Variant *variant, Operation operation, bool cin) {
    const OperationFacts *facts = operation_facts(operation);
    if (facts->reads_cin)
        return adder_first_carry(unit, operation,
                                 cin != (facts->subtracts && variant->cin_reversed));
    bool missing = variant->first_missing || variant->operand == OPERAND_PLAIN_SUM;
    return adder_first_carry(unit, operation, cin) && !(facts->subtracts && missing);
}

/* An addend of the operation, whose inversion may be mistaken. */
static void set_addend(Addend addend, const Word *a, const Word *b, PlainOperand how, Word *to) {
    adder_operand(addend, a, b, to);
    if (!addend_is_inverted(addend))
        return;
    word_not(to, to);
    invert(to, how);
}

static void set_operands(const Variant *variant, Operation operation, const Word *pin_a,
                         const Word *pin_b, Machine *machine) {
    const OperationFacts *facts = operation_facts(operation);
    Word a, b;
    operand(&a, pin_a, variant->reverse_a, variant, CUT_A);
    operand(&b, pin_b, variant->reverse_b, variant, CUT_B);
    bool mistaken = machine->subtracts && facts->first != ENTERS_0;
    PlainOperand how = mistaken ? variant->operand : OPERAND_INVERTED;
    bool swap = machine->subtracts && variant->swapped && adder_adds_two(operation);
    set_addend(facts->x, swap ? &b : &a, swap ? &a : &b, how, &machine->x);
    set_addend(facts->y, swap ? &b : &a, swap ? &a : &b, how, &machine->y);
    if (variant->cut == CUT_X || variant->cut == CUT_X_AND_Y)
        keep_low(&machine->x, variant->kept);
    if (variant->cut == CUT_Y || variant->cut == CUT_X_AND_Y)
        keep_low(&machine->y, variant->kept);
}

/* ---- the addition -------------------------------------------------------------------------- */

static bool carry_in_break(const Breaks *breaks, const Word *carries, unsigned bit) {
    if (word_bit(&breaks->taken, bit))
        return word_bit(carries, breaks->from[bit]);
    return word_bit(&breaks->level, bit);
}

static void add_with_breaks(const Breaks *breaks, bool carry, Machine *machine) {
    unsigned width = machine->x.width;
    word_zero(&machine->carries, width);
    for (unsigned bit = 0; bit < width; bit++) {
        if (word_bit(&breaks->column, bit))
            carry = carry_in_break(breaks, &machine->carries, bit);
        word_put(&machine->carries, bit, carry);
        bool x = word_bit(&machine->x, bit), y = word_bit(&machine->y, bit);
        carry = (x && y) || (carry && (x || y));
    }
    machine->out = carry;
    word_xor(&machine->sum, &machine->x, &machine->y);
    word_xor(&machine->sum, &machine->sum, &machine->carries);
}

static void add(const Variant *variant, bool first, Machine *machine) {
    if (variant->breaks != NULL && variant->breaks->any) {
        add_with_breaks(variant->breaks, first, machine);
        return;
    }
    machine->out = word_add(&machine->sum, &machine->x, &machine->y, first);
    word_xor(&machine->carries, &machine->x, &machine->y);
    word_xor(&machine->carries, &machine->carries, &machine->sum);
}

static bool carry_into(const Machine *machine, unsigned bit) {
    return bit == machine->carries.width ? machine->out : word_bit(&machine->carries, bit);
}

/* A sum of the lower bits alone, and what stands above them. */
static void cut_sum(const Variant *variant, Machine *machine) {
    unsigned width = machine->sum.width, kept = variant->kept;
    bool out = carry_into(machine, kept);
    machine->into_sign = word_bit(&machine->carries, kept - 1);
    machine->out = out;
    word_resize_unsigned(&machine->sum, &machine->sum, kept);
    if (variant->cut == CUT_SUM_SIGN)
        word_resize_signed(&machine->sum, &machine->sum, width);
    else
        word_resize_unsigned(&machine->sum, &machine->sum, width);
    if (variant->cut == CUT_SUM_CARRY && kept < width)
        word_put(&machine->sum, kept, out);
}

/* ---- what is delivered --------------------------------------------------------------------- */

static void saturate(const Unit *unit, Machine *machine) {
    unsigned width = unit->width;
    bool overflows = machine->out != machine->into_sign;
    bool sign = word_bit(&machine->sum, width - 1);
    word_resize_unsigned(&machine->result, &machine->sum, width);
    if (unit->overflow == OVERFLOW_SATURATE_SIGNED && overflows) {
        word_zero(&machine->result, width); /* an exact sign is the sum's, inverted */
        word_put(&machine->result, width - 1, true);
        if (sign)
            word_not(&machine->result, &machine->result);
    } else if (unit->overflow == OVERFLOW_SATURATE_UNSIGNED && machine->out != machine->subtracts) {
        word_zero(&machine->result, width);
        if (!machine->subtracts)
            word_ones(&machine->result, width);
    }
}

static void do_nothing(unsigned width, Machine *machine) {
    word_zero(&machine->x, width);
    word_zero(&machine->y, width);
    word_zero(&machine->carries, width);
    word_zero(&machine->sum, width);
    word_zero(&machine->inner, width);
    word_zero(&machine->result, width);
    machine->cut = machine->subtracts = machine->out = machine->into_sign = machine->half = false;
}

void variant_run(const Unit *unit, const Variant *variant, uint32_t control, const Word *a,
                 const Word *b, bool cin, Machine *machine) {
    machine->choice = variant_choice(unit, variant, control);
    if (machine->choice == UNIT_NOTHING) {
        do_nothing(unit->width, machine);
        return;
    }
    Operation operation = unit->choice[machine->choice].operation;
    machine->subtracts = operation_facts(operation)->subtracts;
    set_operands(variant, operation, a, b, machine);
    add(variant, first_carry(unit, variant, operation, cin), machine);
    machine->into_sign = word_bit(&machine->carries, unit->width - 1);
    machine->half = unit->width >= 4 && carry_into(machine, 4);
    machine->cut = variant->cut == CUT_SUM_ZEROS || variant->cut == CUT_SUM_CARRY ||
                   variant->cut == CUT_SUM_SIGN;
    if (machine->cut)
        cut_sum(variant, machine);
    saturate(unit, machine);
    word_resize_unsigned(&machine->inner, &machine->result, unit->width);
    if (variant->reverse_result)
        variant_reverse(&machine->result, &machine->inner);
}
