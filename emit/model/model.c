/* See model.h. Each operation is its formula on integers; each flag is its definition on the exact
 * result. An exact result of n-bit operands fits n + 2 bits, signed or unsigned: the largest is
 * 2(2^n - 1) + 1, the smallest -(2^n - 1) - 1. */
#include "model/model.h"

typedef enum { TERM_ZERO, TERM_A, TERM_B } Term;
typedef enum { EXTRA_NONE, EXTRA_ONE, EXTRA_CIN } Extra;

/* first + second + extra, or first - second - extra */
typedef struct {
    Term first;
    bool minus;
    Term second;
    Extra extra;
} Formula;

static const Formula formulas[OP_COUNT] = {
    [OP_ADD] = {TERM_A, false, TERM_B, EXTRA_NONE},   /* a + b */
    [OP_ADC] = {TERM_A, false, TERM_B, EXTRA_CIN},    /* a + b + carry */
    [OP_SUB] = {TERM_A, true, TERM_B, EXTRA_NONE},    /* a - b */
    [OP_SBC] = {TERM_A, true, TERM_B, EXTRA_CIN},     /* a - b - borrow */
    [OP_RSB] = {TERM_B, true, TERM_A, EXTRA_NONE},    /* b - a */
    [OP_INC] = {TERM_A, false, TERM_ZERO, EXTRA_ONE}, /* a + 1 */
    [OP_DEC] = {TERM_A, true, TERM_ZERO, EXTRA_ONE},  /* a - 1 */
    [OP_NEG] = {TERM_ZERO, true, TERM_A, EXTRA_NONE}, /* -a */
    [OP_PASS] = {TERM_A, false, TERM_ZERO, EXTRA_NONE},
};

/* An operation with its numbers put in: first + second + extra, or with minus for plus. */
typedef struct {
    const Word *first;
    const Word *second;
    bool minus;
    bool extra;
} Sum;

/* The exact result on operands read as unsigned or as two's complement numbers, itself a two's
 * complement number of two bits more than the operands. */
static void exact_result(const Sum *sum, bool is_signed, Word *exact) {
    void (*widen)(Word *, const Word *, unsigned) =
        is_signed ? word_resize_signed : word_resize_unsigned;
    unsigned bits = sum->first->width + 2;
    Word second;
    widen(exact, sum->first, bits);
    widen(&second, sum->second, bits);
    if (sum->minus)
        word_subtract(exact, exact, &second, sum->extra);
    else
        word_add(exact, exact, &second, sum->extra);
}

/* The carry, or in a subtraction the borrow, out of the lowest 4 bits. */
static bool carries_out_of_low_digit(const Sum *sum) {
    if (sum->first->width < 4)
        return false;
    int first = (int)(sum->first->limb[0] & 15);
    int second = (int)(sum->second->limb[0] & 15);
    return sum->minus ? first - second - sum->extra < 0 : first + second + sum->extra > 15;
}

/* The carry or borrow as the carry pins show it. */
static bool at_the_pin(const Unit *unit, const Sum *sum, bool carry_or_borrow) {
    bool complemented = sum->minus && unit->sense == SENSE_NO_BORROW;
    return carry_or_borrow != complemented;
}

/* The flags that describe the exact result. In bits: a result is below 0 when its top bit n + 1 is
 * 1; a sum of unsigned words, which is never below 0, is >= 2^n when bit n is 1; a signed result,
 * which is always in [-2^n, 2^n - 1], is in [-2^(n-1), 2^(n-1) - 1] when bit n - 1 equals the top
 * bit. */
static void describe_exact(const Unit *unit, const Sum *sum, const Word *exact_unsigned,
                           const Word *exact_signed, bool *flag) {
    unsigned n = unit->width;
    bool below = word_bit(exact_unsigned, n + 1);
    bool above = word_bit(exact_unsigned, n);
    bool sign = word_bit(exact_signed, n + 1);
    flag[FLAG_CARRY] = at_the_pin(unit, sum, sum->minus ? below : above);
    flag[FLAG_OVERFLOW] = word_bit(exact_signed, n - 1) != sign;
    flag[FLAG_LESS_SIGNED] = sign;
    flag[FLAG_LESS_UNSIGNED] = below;
    flag[FLAG_HALF_CARRY] = n >= 4 && at_the_pin(unit, sum, carries_out_of_low_digit(sum));
}

/* The exact signed result brought into [-2^(n-1), 2^(n-1) - 1]. */
static void clamp_signed(unsigned n, const Word *exact, const bool *flag, Word *result) {
    if (!flag[FLAG_OVERFLOW]) {
        word_resize_unsigned(result, exact, n);
    } else if (flag[FLAG_LESS_SIGNED]) {
        word_zero(result, n);
        word_put(result, n - 1, true);
    } else {
        word_ones(result, n);
        word_put(result, n - 1, false);
    }
}

/* The exact unsigned result brought into [0, 2^n - 1]. */
static void clamp_unsigned(unsigned n, const Word *exact, Word *result) {
    if (word_bit(exact, n + 1))
        word_zero(result, n);
    else if (word_bit(exact, n))
        word_ones(result, n);
    else
        word_resize_unsigned(result, exact, n);
}

static void deliver(const Unit *unit, const Word *exact_unsigned, const Word *exact_signed,
                    Outcome *outcome) {
    switch (unit->overflow) {
    case OVERFLOW_SATURATE_SIGNED:
        clamp_signed(unit->width, exact_signed, outcome->flag, &outcome->result);
        break;
    case OVERFLOW_SATURATE_UNSIGNED:
        clamp_unsigned(unit->width, exact_unsigned, &outcome->result);
        break;
    default:
        word_resize_unsigned(&outcome->result, exact_unsigned, unit->width);
    }
    outcome->flag[FLAG_ZERO] = word_is_zero(&outcome->result);
    outcome->flag[FLAG_NEGATIVE] = word_bit(&outcome->result, unit->width - 1);
    outcome->flag[FLAG_PARITY] = word_parity(&outcome->result);
}

static void deliver_nothing(const Unit *unit, Outcome *outcome) {
    word_zero(&outcome->result, unit->width);
    for (int f = 0; f < FLAG_COUNT; f++)
        outcome->flag[f] = f == FLAG_ZERO;
}

/* The operation's formula with the operands and the level of cin put in. */
static Sum sum_of(const Unit *unit, int choice, const Word *const terms[], bool cin) {
    const Formula *formula = &formulas[unit->choice[choice].operation];
    Sum sum = {terms[formula->first], terms[formula->second], formula->minus, false};
    sum.extra =
        formula->extra == EXTRA_ONE || (formula->extra == EXTRA_CIN && at_the_pin(unit, &sum, cin));
    return sum;
}

void model_exact(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                 Word *exact_unsigned, Word *exact_signed) {
    Word zero;
    word_zero(&zero, unit->width);
    Sum sum = sum_of(unit, choice,
                     (const Word *[]){[TERM_ZERO] = &zero, [TERM_A] = a, [TERM_B] = b}, cin);
    exact_result(&sum, false, exact_unsigned);
    exact_result(&sum, true, exact_signed);
}

void model_outcome(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                   Outcome *outcome) {
    if (choice == UNIT_NOTHING) {
        deliver_nothing(unit, outcome);
        return;
    }
    Word zero;
    word_zero(&zero, unit->width);
    Sum sum = sum_of(unit, choice,
                     (const Word *[]){[TERM_ZERO] = &zero, [TERM_A] = a, [TERM_B] = b}, cin);
    Word exact_unsigned, exact_signed;
    exact_result(&sum, false, &exact_unsigned);
    exact_result(&sum, true, &exact_signed);
    describe_exact(unit, &sum, &exact_unsigned, &exact_signed, outcome->flag);
    deliver(unit, &exact_unsigned, &exact_signed, outcome);
}
