/* An operation worked column by column: what the adder is given, the carry that enters each column,
 * what each column delivers. Computed from X + Y + first carry, one column after the other as by
 * hand, never from gates; what the unit delivers comes from the model. The text (sheet.h) shows a
 * Working. */
#ifndef SUMWRIGHT_WORK_WORKING_H
#define SUMWRIGHT_WORK_WORKING_H

#include "model/adder.h"
#include "model/model.h"

typedef struct {
    const Unit *unit;
    int choice; /* the operation, an index into unit->choice */
    Word a, b;  /* at the pins; b is 0 where the operation does not read it */
    bool cin;   /* at the pin; false where the operation does not read it */

    Addend addend[2];  /* what X and Y are */
    Word operand[2];   /* X and Y */
    bool cin_inverted; /* an operation that reads cin: the pin speaks of a borrow */
    Word carry;        /* width + 1 bits: bit i enters column i, the last leaves the sign column */
    Word sum;          /* what the columns deliver, before any saturation */

    Word exact_unsigned; /* the exact results, see model_exact */
    Word exact_signed;
    Outcome outcome; /* what the unit delivers */
} Working;

/* Works the operation out. a, b and cin are ignored where it does not read them. */
void working_compute(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                     Working *working);

/* The unit's operation that is worked. */
Operation working_operation(const Working *working);

/* What becomes of X (0) or Y (1) on its way, in words; NULL for nothing. */
const char *working_operand_remark(const Working *working, int which);

/* Is an operand of the operation inverted on its way to the adder? */
bool working_inverts(const Working *working);

/* The two last carries: into the sign column and out of it. */
bool working_carry_in(const Working *working);
bool working_carry_out(const Working *working);

#endif
