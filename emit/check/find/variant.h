/* The unit as somebody may have built it: the same formulas as the model, with mistakes put in.
 * What is computed is what an adder would do, carries included, because a mistake in the operands
 * shows in every flag that is made from them.
 *
 * Written apart from gates/ and model/: mistakes.c compares with the model, and a variant without
 * mistakes must agree with it (tests/unit/mistakes_test.c). */
#ifndef SUMWRIGHT_CHECK_FIND_VARIANT_H
#define SUMWRIGHT_CHECK_FIND_VARIANT_H

#include "model/word.h"
#include "unit/unit.h"

/* What becomes of the operand that a subtraction inverts. */
typedef enum {
    OPERAND_INVERTED,  /* as it should */
    OPERAND_PLAIN,     /* it goes in as it is, with the first carry: a + b + 1 */
    OPERAND_PLAIN_SUM, /* and without: a + b */
    OPERAND_BIT_0,     /* its lowest bit alone is inverted: b ^ m for b ^ {n{m}} */
    OPERAND_LOGICAL,   /* 1 where it is 0, else 0: !b for ~b */
} PlainOperand;

/* What is cut to the lower bits, with what above them. */
typedef enum {
    CUT_NOTHING,
    CUT_SUM_ZEROS, /* the sum, zeros */
    CUT_SUM_CARRY, /* the sum, its carry and zeros */
    CUT_SUM_SIGN,  /* the sum, its top bit repeated */
    CUT_A,         /* an operand, zeros; before the inversion */
    CUT_B,
    CUT_OPERANDS,
    CUT_X, /* what the adder is given, zeros; after the inversion */
    CUT_Y,
    CUT_X_AND_Y,
    CUT_COUNT
} Cut;

/* Carries that do not reach their column: in the columns marked, something else goes in. */
typedef struct {
    bool any;
    Word column;
    Word taken; /* of them, those that are given the carry into a column below, from[column] */
    Word level; /* the level that each of the others is given */
    uint16_t from[UNIT_WIDTH_MAX];
} Breaks;

typedef struct {
    bool control_reversed; /* adds when told to subtract, and the reverse */
    bool code_reversed;    /* the op bus is wired in the opposite order */
    bool swapped;          /* b - a for a - b */
    PlainOperand operand;
    bool first_missing; /* subtraction without the +1 */
    bool cin_reversed;  /* the carry pin in, in subtraction */
    bool reverse_a, reverse_b, reverse_result;
    Cut cut;
    unsigned kept;        /* the lower bits that a cut leaves */
    const Breaks *breaks; /* or NULL */
} Variant;

/* What goes on inside. */
typedef struct {
    int choice; /* what is done, an index into unit->choice or UNIT_NOTHING */
    bool subtracts;
    Word x, y;    /* what is added */
    Word carries; /* into each column */
    Word sum;     /* before saturation */
    Word inner;   /* what is delivered, before its bus is turned over */
    Word result;  /* delivered */
    bool cut;     /* the sum is of the lower bits alone, and out and into_sign are theirs */
    bool out;     /* the carry out of the last column */
    bool into_sign;
    bool half; /* the carry out of column 3; false in narrower units */
} Machine;

/* One case: the level of the control pins, the operands, the cin pin. */
void variant_run(const Unit *unit, const Variant *variant, uint32_t control, const Word *a,
                 const Word *b, bool cin, Machine *machine);

/* The choice that a variant makes of the control pins' level. */
int variant_choice(const Unit *unit, const Variant *variant, uint32_t control);

/* The bits in the opposite order; to is not from. */
void variant_reverse(Word *to, const Word *from);

#endif
