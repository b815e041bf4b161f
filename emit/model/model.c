/* See model.h. Each operation is its formula on integers; each flag is its definition on the exact
 * result. An exact result of n-bit operands fits n + 2 bits, signed or unsigned: the largest is
 * 2(2^n - 1) + 1, the smallest -(2^n - 1) - 1. */
#include "model/model.h"

#include <assert.h>

typedef enum { TERM_ZERO, TERM_A, TERM_B } Term;
typedef enum { EXTRA_NONE, EXTRA_ONE, EXTRA_CIN } Extra;

/* first + second + extra, or first - second - extra */
typedef struct {
    Term first;
    bool minus;
    Term second;
    Extra extra;
} Formula;

static const Formula add_formula = {TERM_A, false, TERM_B, EXTRA_NONE};
static const Formula adc_formula = {TERM_A, false, TERM_B, EXTRA_CIN};
static const Formula sub_formula = {TERM_A, true, TERM_B, EXTRA_NONE};
static const Formula sbc_formula = {TERM_A, true, TERM_B, EXTRA_CIN};
static const Formula rsb_formula = {TERM_B, true, TERM_A, EXTRA_NONE};
static const Formula inc_formula = {TERM_A, false, TERM_ZERO, EXTRA_ONE};
static const Formula dec_formula = {TERM_A, true, TERM_ZERO, EXTRA_ONE};
static const Formula neg_formula = {TERM_ZERO, true, TERM_A, EXTRA_NONE};
static const Formula pass_formula = {TERM_A, false, TERM_ZERO, EXTRA_NONE};

#define FORMULA_ROW(ID, id, ...) [OP_##ID] = &id##_formula,
static const Formula *const formulas[OP_COUNT] = {OPERATIONS(FORMULA_ROW)};

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
    int first = (int)(sum->first->limb[0] & 15);
    int second = (int)(sum->second->limb[0] & 15);
    return sum->minus ? first - second - sum->extra < 0 : first + second + sum->extra > 15;
}

/* The carry or borrow as the carry pins show it. */
static bool at_the_pin(const Unit *unit, const Sum *sum, bool carry_or_borrow) {
    bool complemented = sum->minus && unit->sense == SENSE_NO_BORROW;
    return carry_or_borrow != complemented;
}

/* All that flags are defined on. Of the exact results, in bits: one is below 0 when its top bit
 * n + 1 is 1; a sum of unsigned words, which is never below 0, is >= 2^n when bit n is 1; a signed
 * result, which is always in [-2^n, 2^n - 1], is in [-2^(n-1), 2^(n-1) - 1] when bit n - 1 equals
 * the top bit. */
typedef struct {
    const Unit *unit;
    Word zero; /* an operand of some formulas */
    Sum sum;
    Word exact_unsigned, exact_signed;
    Word *result; /* delivered */
} Exact;

/* ---- the flags ----------------------------------------------------------------------------- */

static bool is_less_signed(const Exact *exact) {
    return word_bit(&exact->exact_signed, exact->unit->width + 1);
}

static bool is_less_unsigned(const Exact *exact) {
    return word_bit(&exact->exact_unsigned, exact->unit->width + 1);
}

static bool is_overflow(const Exact *exact) {
    return word_bit(&exact->exact_signed, exact->unit->width - 1) != is_less_signed(exact);
}

static bool is_carry(const Exact *exact) {
    bool above = word_bit(&exact->exact_unsigned, exact->unit->width);
    return at_the_pin(exact->unit, &exact->sum, exact->sum.minus ? is_less_unsigned(exact) : above);
}

static bool is_half_carry(const Exact *exact) {
    return exact->unit->width >= 4 &&
           at_the_pin(exact->unit, &exact->sum, carries_out_of_low_digit(&exact->sum));
}

static bool is_zero(const Exact *exact) {
    return word_is_zero(exact->result);
}

static bool is_negative(const Exact *exact) {
    return word_bit(exact->result, exact->unit->width - 1);
}

static bool is_parity(const Exact *exact) {
    return word_parity(exact->result);
}

#define FLAG_ROW(ID, pin, ...) [FLAG_##ID] = is_##pin,
static bool (*const definitions[FLAG_COUNT])(const Exact *) = {FLAGS(FLAG_ROW)};

/* ---- the result ---------------------------------------------------------------------------- */

/* The exact signed result brought into [-2^(n-1), 2^(n-1) - 1]. */
static void clamp_signed(Exact *exact) {
    unsigned n = exact->unit->width;
    if (!is_overflow(exact)) {
        word_resize_unsigned(exact->result, &exact->exact_signed, n);
        return;
    }
    word_zero(exact->result, n);
    word_put(exact->result, n - 1, true);
    if (!is_less_signed(exact))
        word_not(exact->result, exact->result);
}

/* The exact unsigned result brought into [0, 2^n - 1]. */
static void clamp_unsigned(Exact *exact) {
    unsigned n = exact->unit->width;
    if (is_less_unsigned(exact))
        word_zero(exact->result, n);
    else if (word_bit(&exact->exact_unsigned, n))
        word_ones(exact->result, n);
    else
        word_resize_unsigned(exact->result, &exact->exact_unsigned, n);
}

static void deliver(Exact *exact) {
    switch (exact->unit->overflow) {
    case OVERFLOW_SATURATE_SIGNED:
        clamp_signed(exact);
        break;
    case OVERFLOW_SATURATE_UNSIGNED:
        clamp_unsigned(exact);
        break;
    case OVERFLOW_WRAP:
        word_resize_unsigned(exact->result, &exact->exact_unsigned, exact->unit->width);
        break;
    }
}

/* The operation's formula with the operands and the level of cin put in, and what it comes to. */
static void work_out(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                     Exact *exact) {
    assert(choice >= 0 && choice < unit->choice_count);
    assert(a->width == unit->width && b->width == unit->width);
    const Word *const terms[] = {[TERM_ZERO] = &exact->zero, [TERM_A] = a, [TERM_B] = b};
    const Formula *formula = formulas[unit->choice[choice].operation];
    exact->unit = unit;
    word_zero(&exact->zero, unit->width);
    exact->sum = (Sum){terms[formula->first], terms[formula->second], formula->minus, false};
    exact->sum.extra = formula->extra == EXTRA_ONE ||
                       (formula->extra == EXTRA_CIN && at_the_pin(unit, &exact->sum, cin));
    exact_result(&exact->sum, false, &exact->exact_unsigned);
    exact_result(&exact->sum, true, &exact->exact_signed);
}

void model_exact(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                 Word *exact_unsigned, Word *exact_signed) {
    Exact exact;
    work_out(unit, choice, a, b, cin, &exact);
    *exact_unsigned = exact.exact_unsigned;
    *exact_signed = exact.exact_signed;
}

void model_outcome(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                   Outcome *outcome) {
    if (choice == UNIT_NOTHING) {
        word_zero(&outcome->result, unit->width);
        for (int f = 0; f < FLAG_COUNT; f++)
            outcome->flag[f] = f == FLAG_ZERO;
        return;
    }
    Exact exact;
    work_out(unit, choice, a, b, cin, &exact);
    exact.result = &outcome->result;
    deliver(&exact);
    for (int f = 0; f < FLAG_COUNT; f++)
        outcome->flag[f] = definitions[f](&exact);
}
