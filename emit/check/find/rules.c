/* See rules.h. A new way to make a flag, right or wrong, is a row of the table. */
#include "check/find/rules.h"

#include "unit/unit.h"

static bool sign_of(const Word *word) {
    return word_bit(word, word->width - 1);
}

static bool told_subtracts(const View *view) {
    return view->told != UNIT_NOTHING &&
           operation_facts(view->unit->choice[view->told].operation)->subtracts;
}

static bool borrows(const View *view) {
    return view->unit->sense == SENSE_BORROW;
}

/* ---- carry and half-carry ------------------------------------------------------------------ */

static bool carry_exact(const View *view) {
    return view->right[FLAG_CARRY];
}

static bool carry_done(const View *view) {
    return view->machine->out != (view->machine->subtracts && borrows(view));
}

static bool carry_told(const View *view) {
    return view->machine->out != (told_subtracts(view) && borrows(view));
}

/* A sum cut to the lower bits and then widened with zeros has no carry any more. */
static bool carry_cut(const View *view) {
    return view->machine->cut ? false : carry_exact(view);
}

static bool carry_exact_reversed(const View *view) {
    return carry_exact(view) != told_subtracts(view);
}

static bool carry_done_reversed(const View *view) {
    return carry_done(view) != view->machine->subtracts;
}

static bool carry_told_reversed(const View *view) {
    return carry_told(view) != told_subtracts(view);
}

static bool half_exact(const View *view) {
    return view->right[FLAG_HALF_CARRY];
}

static bool half_done(const View *view) {
    return view->machine->half != (view->machine->subtracts && borrows(view));
}

static bool half_exact_reversed(const View *view) {
    return half_exact(view) != told_subtracts(view);
}

static bool half_done_reversed(const View *view) {
    return half_done(view) != view->machine->subtracts;
}

/* ---- overflow ------------------------------------------------------------------------------ */

static bool overflow_exact(const View *view) {
    return view->right[FLAG_OVERFLOW];
}

static bool overflow_by_carries(const View *view) {
    return view->machine->out != view->machine->into_sign;
}

/* The sign rule of an operation on the operands at the pins and a result. */
static bool overflow_by_signs(const View *view, int choice, const Word *result) {
    if (choice == UNIT_NOTHING)
        return false;
    bool a = sign_of(view->a), b = sign_of(view->b), r = sign_of(result);
    switch (view->unit->choice[choice].operation) {
    case OP_ADD:
    case OP_ADC:
        return a == b && r != a;
    case OP_SUB:
    case OP_SBC:
        return a != b && r != a;
    case OP_RSB:
        return a != b && r != b;
    case OP_INC:
        return !a && r;
    case OP_DEC:
        return a && !r;
    case OP_NEG:
        return a && r;
    default:
        return false;
    }
}

static bool overflow_told_sum(const View *view) {
    return overflow_by_signs(view, view->told, &view->machine->sum);
}

static bool overflow_told_seen(const View *view) {
    return overflow_by_signs(view, view->told, &view->seen);
}

static bool overflow_done_sum(const View *view) {
    return overflow_by_signs(view, view->machine->choice, &view->machine->sum);
}

static bool overflow_exact_inverted(const View *view) {
    return !overflow_exact(view);
}

static bool overflow_carries_inverted(const View *view) {
    return !overflow_by_carries(view);
}

static bool overflow_told_inverted(const View *view) {
    return !overflow_told_sum(view);
}

static bool overflow_seen_inverted(const View *view) {
    return !overflow_told_seen(view);
}

static bool adder_carry(const View *view) {
    return view->machine->out;
}

static bool seen_carry(const View *view) {
    return view->seen_flag[FLAG_CARRY];
}

/* The rule for addition on the operands before inversion; additions are right. */
static bool forgets(const View *view, const Word *result) {
    if (!told_subtracts(view))
        return overflow_by_signs(view, view->told, result);
    const OperationFacts *facts = operation_facts(view->unit->choice[view->told].operation);
    bool a = sign_of(view->a), b = facts->reads_b && sign_of(view->b), r = sign_of(result);
    return a == b && r != a;
}

/* The same, written with a > 0 where a >= 0 does for addition, too: a 0 is no positive number. */
static bool overflow_forgets_zeros(const View *view) {
    return forgets(view, &view->seen) &&
           (sign_of(view->a) || (!word_is_zero(view->a) && !word_is_zero(view->b)));
}

static bool overflow_forgets_sum(const View *view) {
    return forgets(view, &view->machine->sum);
}

static bool overflow_forgets_seen(const View *view) {
    return forgets(view, &view->seen);
}

/* ---- zero ---------------------------------------------------------------------------------- */

static bool zero_exact(const View *view) {
    return view->right[FLAG_ZERO];
}

static bool zero_seen(const View *view) {
    return word_is_zero(&view->seen) && view->seen_all;
}

static bool zero_made(const View *view) {
    return word_is_zero(&view->machine->result);
}

/* Is it zero but for the bits that the flag has been seen to miss? */
static bool zero_but_for(const View *view, const Word *result) {
    Word rest;
    word_not(&rest, &view->hints->zero_missed);
    word_and(&rest, &rest, result);
    return word_is_zero(&rest);
}

static bool zero_seen_partly(const View *view) {
    return zero_but_for(view, &view->seen);
}

static bool zero_made_partly(const View *view) {
    return zero_but_for(view, &view->machine->result);
}

/* ---- negative ------------------------------------------------------------------------------ */

static bool negative_exact(const View *view) {
    return view->right[FLAG_NEGATIVE];
}

static bool negative_seen(const View *view) {
    return sign_of(&view->seen);
}

static bool negative_made(const View *view) {
    return sign_of(&view->machine->result);
}

static bool negative_inner(const View *view) {
    return sign_of(&view->machine->inner);
}

static bool negative_inverted(const View *view) {
    return !sign_of(&view->seen);
}

static bool negative_exact_inverted(const View *view) {
    return !negative_exact(view);
}

static bool negative_is_less(const View *view) {
    return view->right[FLAG_LESS_SIGNED];
}

static bool negative_made_less(const View *view) {
    return sign_of(&view->machine->sum) != overflow_by_carries(view);
}

static bool negative_is_borrow(const View *view) {
    return !view->machine->out;
}

static bool negative_of_a(const View *view) {
    return sign_of(view->a);
}

static bool negative_of_b(const View *view) {
    return sign_of(view->b);
}

static bool negative_of_sum(const View *view) {
    return sign_of(&view->machine->sum);
}

/* The bit that goes with the flag in every case, the highest of several. */
static bool bit_that_goes_with(const View *view, const Word *bits, bool *level) {
    for (unsigned bit = bits->width; bit-- > 0;)
        if (word_bit(bits, bit)) {
            *level = word_bit(&view->seen, bit);
            return true;
        }
    return false;
}

static bool negative_other_bit(const View *view) {
    bool level = false;
    return bit_that_goes_with(view, &view->hints->negative_as, &level)
               ? level
               : !view->seen_flag[FLAG_NEGATIVE];
}

static bool negative_other_bit_inverted(const View *view) {
    bool level = false;
    return bit_that_goes_with(view, &view->hints->negative_against, &level)
               ? !level
               : !view->seen_flag[FLAG_NEGATIVE];
}

/* Whatever it is: the flag is wrong, so it is not the sign bit. */
static bool negative_anything(const View *view) {
    return view->seen_flag[FLAG_NEGATIVE];
}

/* ---- the others ---------------------------------------------------------------------------- */

static bool less_signed_exact(const View *view) {
    return view->right[FLAG_LESS_SIGNED];
}

static bool less_signed_pins(const View *view) {
    return view->seen_flag[FLAG_NEGATIVE] != view->seen_flag[FLAG_OVERFLOW];
}

static bool less_signed_told(const View *view) {
    return sign_of(&view->machine->sum) != overflow_told_sum(view);
}

static bool less_unsigned_exact(const View *view) {
    return view->right[FLAG_LESS_UNSIGNED];
}

static bool less_unsigned_done(const View *view) {
    return view->machine->subtracts && !view->machine->out;
}

static bool less_unsigned_told(const View *view) {
    return told_subtracts(view) && !view->machine->out;
}

static bool parity_exact(const View *view) {
    return view->right[FLAG_PARITY];
}

static bool parity_seen(const View *view) {
    return word_parity(&view->seen);
}

static bool parity_made(const View *view) {
    return word_parity(&view->machine->result);
}

static bool stuck_0(const View *view) {
    (void)view;
    return false;
}

static bool stuck_1(const View *view) {
    (void)view;
    return true;
}

/* ---- the table ----------------------------------------------------------------------------- */

static const Rule table[] = {
    {FLAG_CARRY, MISTAKE_NONE, "", carry_exact},
    {FLAG_CARRY, MISTAKE_NONE, "", carry_done},
    {FLAG_CARRY, MISTAKE_NONE, "", carry_told},
    {FLAG_CARRY, MISTAKE_NONE, "", carry_cut},
    {FLAG_CARRY, MISTAKE_BIT_STUCK, "carry is always 0", stuck_0},
    {FLAG_CARRY, MISTAKE_BIT_STUCK, "carry is always 1", stuck_1},
    {FLAG_CARRY, MISTAKE_CARRY_SENSE_REVERSED, "the pin carry", carry_exact_reversed},
    {FLAG_CARRY, MISTAKE_CARRY_SENSE_REVERSED, "the pin carry", carry_done_reversed},
    {FLAG_CARRY, MISTAKE_CARRY_SENSE_REVERSED, "the pin carry", carry_told_reversed},

    {FLAG_OVERFLOW, MISTAKE_NONE, "", overflow_exact},
    {FLAG_OVERFLOW, MISTAKE_NONE, "", overflow_by_carries},
    {FLAG_OVERFLOW, MISTAKE_NONE, "", overflow_told_sum},
    {FLAG_OVERFLOW, MISTAKE_NONE, "", overflow_told_seen},
    {FLAG_OVERFLOW, MISTAKE_NONE, "", overflow_done_sum},
    {FLAG_OVERFLOW, MISTAKE_BIT_STUCK, "overflow is always 0", stuck_0},
    {FLAG_OVERFLOW, MISTAKE_BIT_STUCK, "overflow is always 1", stuck_1},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_REPEATS_CARRY, "", adder_carry},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_REPEATS_CARRY, "", carry_done},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_REPEATS_CARRY, "", carry_exact},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_REPEATS_CARRY, "", seen_carry},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_REPEATS_CARRY, "", carry_done_reversed},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_REPEATS_CARRY, "", carry_exact_reversed},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_FORGETS_SUBTRACTION, "", overflow_forgets_sum},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_FORGETS_SUBTRACTION, "", overflow_forgets_seen},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_FORGETS_SUBTRACTION, "", overflow_forgets_zeros},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_INVERTED, "", overflow_exact_inverted},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_INVERTED, "", overflow_carries_inverted},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_INVERTED, "", overflow_told_inverted},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_INVERTED, "", overflow_seen_inverted},

    {FLAG_ZERO, MISTAKE_NONE, "", zero_exact},
    {FLAG_ZERO, MISTAKE_NONE, "", zero_seen},
    {FLAG_ZERO, MISTAKE_NONE, "", zero_made},
    {FLAG_ZERO, MISTAKE_BIT_STUCK, "zero is always 0", stuck_0},
    {FLAG_ZERO, MISTAKE_BIT_STUCK, "zero is always 1", stuck_1},
    {FLAG_ZERO, MISTAKE_ZERO_MISSES_BITS, "", zero_seen_partly},
    {FLAG_ZERO, MISTAKE_ZERO_MISSES_BITS, "", zero_made_partly},

    {FLAG_NEGATIVE, MISTAKE_NONE, "", negative_exact},
    {FLAG_NEGATIVE, MISTAKE_NONE, "", negative_seen},
    {FLAG_NEGATIVE, MISTAKE_NONE, "", negative_made},
    {FLAG_NEGATIVE, MISTAKE_NONE, "", negative_inner},
    {FLAG_NEGATIVE, MISTAKE_BIT_STUCK, "negative is always 0", stuck_0},
    {FLAG_NEGATIVE, MISTAKE_BIT_STUCK, "negative is always 1", stuck_1},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the sign bit inverted", negative_inverted},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the sign bit inverted", negative_exact_inverted},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the sign of the exact result", negative_is_less},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the sign of the exact result",
     negative_made_less},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the sign before saturation", negative_of_sum},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the sign of a", negative_of_a},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the sign of b", negative_of_b},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is another bit of the result", negative_other_bit},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is another bit of the result, inverted",
     negative_other_bit_inverted},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the adder's carry", adder_carry},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "it is the adder's carry inverted", negative_is_borrow},
    {FLAG_NEGATIVE, MISTAKE_NEGATIVE_WRONG, "", negative_anything},

    {FLAG_LESS_SIGNED, MISTAKE_NONE, "", less_signed_exact},
    {FLAG_LESS_SIGNED, MISTAKE_NONE, "", negative_made_less},
    {FLAG_LESS_SIGNED, MISTAKE_NONE, "", less_signed_pins},
    {FLAG_LESS_SIGNED, MISTAKE_NONE, "", less_signed_told},
    {FLAG_LESS_SIGNED, MISTAKE_BIT_STUCK, "less_signed is always 0", stuck_0},
    {FLAG_LESS_SIGNED, MISTAKE_BIT_STUCK, "less_signed is always 1", stuck_1},

    {FLAG_LESS_UNSIGNED, MISTAKE_NONE, "", less_unsigned_exact},
    {FLAG_LESS_UNSIGNED, MISTAKE_NONE, "", less_unsigned_done},
    {FLAG_LESS_UNSIGNED, MISTAKE_NONE, "", less_unsigned_told},
    {FLAG_LESS_UNSIGNED, MISTAKE_BIT_STUCK, "less_unsigned is always 0", stuck_0},
    {FLAG_LESS_UNSIGNED, MISTAKE_BIT_STUCK, "less_unsigned is always 1", stuck_1},

    {FLAG_PARITY, MISTAKE_NONE, "", parity_exact},
    {FLAG_PARITY, MISTAKE_NONE, "", parity_seen},
    {FLAG_PARITY, MISTAKE_NONE, "", parity_made},
    {FLAG_PARITY, MISTAKE_BIT_STUCK, "parity is always 0", stuck_0},
    {FLAG_PARITY, MISTAKE_BIT_STUCK, "parity is always 1", stuck_1},

    {FLAG_HALF_CARRY, MISTAKE_NONE, "", half_exact},
    {FLAG_HALF_CARRY, MISTAKE_NONE, "", half_done},
    {FLAG_HALF_CARRY, MISTAKE_BIT_STUCK, "half_carry is always 0", stuck_0},
    {FLAG_HALF_CARRY, MISTAKE_BIT_STUCK, "half_carry is always 1", stuck_1},
    {FLAG_HALF_CARRY, MISTAKE_CARRY_SENSE_REVERSED, "the pin half_carry", half_exact_reversed},
    {FLAG_HALF_CARRY, MISTAKE_CARRY_SENSE_REVERSED, "the pin half_carry", half_done_reversed},
};

int rules_of(Flag flag, Rule rules[RULES_MAX]) {
    int count = 0;
    for (size_t k = 0; k < sizeof table / sizeof table[0]; k++)
        if (table[k].flag == flag && count < RULES_MAX)
            rules[count++] = table[k];
    return count;
}
