/* See rules.h. A new way to make a flag, right or wrong, is a row of the table: a signal, and when it
 * is upside down. Rules that every flag has need no row: the right level, and stuck. */
#include "check/find/rules.h"

#include "model/adder.h"

#include <assert.h>

static bool sign_of(const Word *word) {
    return word_bit(word, word->width - 1);
}

static bool told_subtracts(const View *view) {
    return view->told != UNIT_NOTHING &&
           operation_facts(view->unit->choice[view->told].operation)->subtracts;
}

/* ---- signals that a flag may be made of ---------------------------------------------------- */

static bool is_right(const View *view) {
    return view->right[view->flag];
}

static bool right_carry(const View *view) {
    return view->right[FLAG_CARRY];
}

static bool right_less(const View *view) {
    return view->right[FLAG_LESS_SIGNED];
}

static bool low(const View *view) {
    (void)view;
    return false;
}

static bool adder_carry(const View *view) {
    return view->machine->out;
}

static bool adder_half_carry(const View *view) {
    return view->machine->half;
}

/* A sum cut to the lower bits and then widened with zeros has no carry any more. */
static bool carry_unless_cut(const View *view) {
    return !view->machine->cut && view->right[FLAG_CARRY];
}

static bool seen_carry(const View *view) {
    return view->seen_flag[FLAG_CARRY];
}

static bool borrow_of_subtraction(const View *view) {
    return view->machine->subtracts && !view->machine->out;
}

static bool borrow_when_told(const View *view) {
    return told_subtracts(view) && !view->machine->out;
}

static bool carries_differ(const View *view) {
    return view->machine->out != view->machine->into_sign;
}

static bool sign_of_addend(const View *view, Addend addend) {
    Word word;
    adder_operand(addend, view->a, view->b, &word);
    return sign_of(&word);
}

/* The sign rule of an operation: what it adds has one sign, the result has the other. */
static bool overflow_by_signs(const View *view, int choice, const Word *result) {
    if (choice == UNIT_NOTHING)
        return false;
    const OperationFacts *facts = operation_facts(view->unit->choice[choice].operation);
    bool x = sign_of_addend(view, facts->x), y = sign_of_addend(view, facts->y);
    return x == y && sign_of(result) != x;
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

static bool seen_zero(const View *view) {
    return word_is_zero(&view->seen) && view->seen_all;
}

static bool made_zero(const View *view) {
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

static bool seen_sign(const View *view) {
    return sign_of(&view->seen);
}

static bool made_sign(const View *view) {
    return sign_of(&view->machine->result);
}

static bool inner_sign(const View *view) {
    return sign_of(&view->machine->inner);
}

static bool sign_of_a(const View *view) {
    return sign_of(view->a);
}

static bool sign_of_b(const View *view) {
    return sign_of(view->b);
}

static bool sign_of_sum(const View *view) {
    return sign_of(&view->machine->sum);
}

static bool less_by_carries(const View *view) {
    return sign_of_sum(view) != carries_differ(view);
}

static bool less_by_signs(const View *view) {
    return sign_of_sum(view) != overflow_told_sum(view);
}

static bool less_by_pins(const View *view) {
    return view->seen_flag[FLAG_NEGATIVE] != view->seen_flag[FLAG_OVERFLOW];
}

/* The bit that goes with the flag in every case, the highest of several; where there is none, not
 * what is seen. */
static bool other_bit(const View *view, const Word *bits, bool inverted) {
    int bit = rules_highest(bits);
    return bit < 0 ? !view->seen_flag[FLAG_NEGATIVE]
                   : word_bit(&view->seen, (unsigned)bit) != inverted;
}

static bool bit_as_negative(const View *view) {
    return other_bit(view, &view->hints->negative_as, false);
}

static bool bit_against_negative(const View *view) {
    return other_bit(view, &view->hints->negative_against, true);
}

/* Whatever it is: the flag is wrong, so it is not the sign bit. */
static bool anything(const View *view) {
    return view->seen_flag[view->flag];
}

static bool seen_parity(const View *view) {
    return word_parity(&view->seen);
}

static bool made_parity(const View *view) {
    return word_parity(&view->machine->result);
}

int rules_highest(const Word *bits) {
    for (unsigned bit = bits->width; bit-- > 0;)
        if (word_bit(bits, bit))
            return (int)bit;
    return -1;
}

/* ---- the table ----------------------------------------------------------------------------- */

#define REPEATS  MISTAKE_OVERFLOW_REPEATS_CARRY
#define FORGETS  MISTAKE_OVERFLOW_FORGETS_SUBTRACTION
#define NEGATIVE MISTAKE_NEGATIVE_WRONG

/* The right ones of a flag first, and of the others the likelier. */
static const Rule table[] = {
    {FLAG_CARRY, MISTAKE_NONE, adder_carry, DOES_BORROW, SAY_NOTHING, ""},
    {FLAG_CARRY, MISTAKE_NONE, adder_carry, TOLD_BORROW, SAY_NOTHING, ""},
    {FLAG_CARRY, MISTAKE_NONE, carry_unless_cut, NEVER, SAY_NOTHING, ""},
    {FLAG_CARRY, MISTAKE_CARRY_SENSE_REVERSED, is_right, TOLD, SAY_PIN, ""},
    {FLAG_CARRY, MISTAKE_CARRY_SENSE_REVERSED, adder_carry, DOES_NO_BORROW, SAY_PIN, ""},
    {FLAG_CARRY, MISTAKE_CARRY_SENSE_REVERSED, adder_carry, TOLD_NO_BORROW, SAY_PIN, ""},

    {FLAG_OVERFLOW, MISTAKE_NONE, carries_differ, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, MISTAKE_NONE, overflow_told_sum, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, MISTAKE_NONE, overflow_told_seen, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, MISTAKE_NONE, overflow_done_sum, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, REPEATS, adder_carry, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, REPEATS, adder_carry, DOES_BORROW, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, REPEATS, right_carry, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, REPEATS, seen_carry, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, REPEATS, adder_carry, DOES_NO_BORROW, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, REPEATS, right_carry, TOLD, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, FORGETS, overflow_forgets_sum, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, FORGETS, overflow_forgets_seen, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, FORGETS, overflow_forgets_zeros, NEVER, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_INVERTED, is_right, ALWAYS, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_INVERTED, carries_differ, ALWAYS, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_INVERTED, overflow_told_sum, ALWAYS, SAY_NOTHING, ""},
    {FLAG_OVERFLOW, MISTAKE_OVERFLOW_INVERTED, overflow_told_seen, ALWAYS, SAY_NOTHING, ""},

    {FLAG_ZERO, MISTAKE_NONE, seen_zero, NEVER, SAY_NOTHING, ""},
    {FLAG_ZERO, MISTAKE_NONE, made_zero, NEVER, SAY_NOTHING, ""},
    {FLAG_ZERO, MISTAKE_ZERO_MISSES_BITS, zero_seen_partly, NEVER, SAY_MISSED_BITS, ""},
    {FLAG_ZERO, MISTAKE_ZERO_MISSES_BITS, zero_made_partly, NEVER, SAY_MISSED_BITS, ""},

    {FLAG_NEGATIVE, MISTAKE_NONE, seen_sign, NEVER, SAY_NOTHING, ""},
    {FLAG_NEGATIVE, MISTAKE_NONE, made_sign, NEVER, SAY_NOTHING, ""},
    {FLAG_NEGATIVE, MISTAKE_NONE, inner_sign, NEVER, SAY_NOTHING, ""},
    {FLAG_NEGATIVE, NEGATIVE, seen_sign, ALWAYS, SAY_IT_IS, "the sign bit inverted"},
    {FLAG_NEGATIVE, NEGATIVE, is_right, ALWAYS, SAY_IT_IS, "the sign bit inverted"},
    {FLAG_NEGATIVE, NEGATIVE, right_less, NEVER, SAY_IT_IS, "the sign of the exact result"},
    {FLAG_NEGATIVE, NEGATIVE, less_by_carries, NEVER, SAY_IT_IS, "the sign of the exact result"},
    {FLAG_NEGATIVE, NEGATIVE, sign_of_sum, NEVER, SAY_IT_IS, "the sign before saturation"},
    {FLAG_NEGATIVE, NEGATIVE, sign_of_a, NEVER, SAY_IT_IS, "the sign of a"},
    {FLAG_NEGATIVE, NEGATIVE, sign_of_b, NEVER, SAY_IT_IS, "the sign of b"},
    {FLAG_NEGATIVE, NEGATIVE, bit_as_negative, NEVER, SAY_BIT_AS, ""},
    {FLAG_NEGATIVE, NEGATIVE, bit_against_negative, NEVER, SAY_BIT_AGAINST, ""},
    {FLAG_NEGATIVE, NEGATIVE, adder_carry, NEVER, SAY_IT_IS, "the adder's carry"},
    {FLAG_NEGATIVE, NEGATIVE, adder_carry, ALWAYS, SAY_IT_IS, "the adder's carry inverted"},
    {FLAG_NEGATIVE, NEGATIVE, anything, NEVER, SAY_CANNOT_TELL, ""},

    {FLAG_LESS_SIGNED, MISTAKE_NONE, less_by_carries, NEVER, SAY_NOTHING, ""},
    {FLAG_LESS_SIGNED, MISTAKE_NONE, less_by_pins, NEVER, SAY_NOTHING, ""},
    {FLAG_LESS_SIGNED, MISTAKE_NONE, less_by_signs, NEVER, SAY_NOTHING, ""},

    {FLAG_LESS_UNSIGNED, MISTAKE_NONE, borrow_of_subtraction, NEVER, SAY_NOTHING, ""},
    {FLAG_LESS_UNSIGNED, MISTAKE_NONE, borrow_when_told, NEVER, SAY_NOTHING, ""},

    {FLAG_PARITY, MISTAKE_NONE, seen_parity, NEVER, SAY_NOTHING, ""},
    {FLAG_PARITY, MISTAKE_NONE, made_parity, NEVER, SAY_NOTHING, ""},

    {FLAG_HALF_CARRY, MISTAKE_NONE, adder_half_carry, DOES_BORROW, SAY_NOTHING, ""},
    {FLAG_HALF_CARRY, MISTAKE_CARRY_SENSE_REVERSED, is_right, TOLD, SAY_PIN, ""},
    {FLAG_HALF_CARRY, MISTAKE_CARRY_SENSE_REVERSED, adder_half_carry, DOES_NO_BORROW, SAY_PIN, ""},
};

static void add_rows(Flag flag, bool right, RuleList *list) {
    for (size_t k = 0; k < sizeof table / sizeof table[0]; k++)
        if (table[k].flag == flag && (table[k].mistake == MISTAKE_NONE) == right) {
            assert(list->count < RULES_MAX - 1);
            list->rule[list->count++] = table[k];
        }
}

void rules_of(Flag flag, RuleList *list) {
    *list = (RuleList){.count = 0};
    list->rule[list->count++] = (Rule){flag, MISTAKE_NONE, is_right, NEVER, SAY_NOTHING, ""};
    add_rows(flag, true, list);
    list->right = list->count;
    list->rule[list->count++] = (Rule){flag, MISTAKE_BIT_STUCK, low, NEVER, SAY_STUCK, "always 0"};
    list->rule[list->count++] = (Rule){flag, MISTAKE_BIT_STUCK, low, ALWAYS, SAY_STUCK, "always 1"};
    add_rows(flag, false, list);
}

/* Is the signal upside down in this case? */
static bool is_inverted(Inverted inverted, const View *view) {
    bool borrow = view->unit->sense == SENSE_BORROW;
    switch (inverted) {
    case NEVER:
        return false;
    case ALWAYS:
        return true;
    case TOLD:
        return told_subtracts(view);
    case TOLD_BORROW:
        return told_subtracts(view) && borrow;
    case TOLD_NO_BORROW:
        return told_subtracts(view) && !borrow;
    case DOES_BORROW:
        return view->machine->subtracts && borrow;
    case DOES_NO_BORROW:
        return view->machine->subtracts && !borrow;
    }
    return false;
}

bool rule_level(const Rule *rule, View *view) {
    view->flag = rule->flag;
    return rule->signal(view) != is_inverted(rule->inverted, view);
}
