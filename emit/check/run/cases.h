/* The vectors of a check, kept in memory with what must come out, in packed words.
 *
 * What comes out of a unit is one packed word: the result in bits 0 ... width - 1, and then every
 * flag, FLAG_x in bit width + FLAG_x, whether the design has it or not. */
#ifndef SUMWRIGHT_CHECK_RUN_CASES_H
#define SUMWRIGHT_CHECK_RUN_CASES_H

#include "base/problem.h"
#include "model/word.h"
#include "unit/unit.h"
#include "vectors/vectors.h"

#include <stddef.h>

typedef struct {
    const Unit *unit;
    size_t count;
    unsigned limbs;     /* 64-bit limbs of an operand */
    unsigned out_limbs; /* of a packed word */
    uint64_t *a, *b;    /* limbs each */
    uint32_t *control;
    bool *cin;
    uint64_t *right; /* out_limbs each, from the model */
} Cases;

/* All vectors of the plan. Too many for the memory set aside is a problem (STATUS_INVALID). Free
 * with cases_free. */
bool cases_make(Cases *cases, const Unit *unit, const VectorPlan *plan, Problem *problem);
void cases_free(Cases *cases);

/* One more, at the end. */
void cases_add(Cases *cases, const Vector *vector);

/* The operands of one case as words. */
void cases_operands(const Cases *cases, size_t k, Word *a, Word *b);

/* Which choice of the unit a case asks for, or UNIT_NOTHING. */
int cases_choice(const Cases *cases, size_t k);

/* What was seen at the outputs, packed alike: bits that are X or Z are 1 in `unknown`. */
typedef struct {
    size_t count;
    unsigned limbs;
    uint64_t *value;
    uint64_t *unknown;
    bool moves; /* with a clock: the outputs change when it falls, at some time; without: they do
                   not follow some input that changes alone, */
    bool stays[PIN_COUNT]; /* of these inputs */
} Samples;

void samples_free(Samples *samples);

static inline bool packed_bit(const uint64_t *packed, unsigned bit) {
    return packed[bit / 64] >> (bit % 64) & 1;
}

#endif
