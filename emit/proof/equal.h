/* Are somebody's gates equal to the unit, for all inputs? Without a clock that is one comparison.
 * With one it is several, each from any state of the registers: the result, so many clocks after its
 * operands; with the enable low, nothing moves, and idle clocks between two stages change nothing;
 * a reset clears the outputs, at once or at the clock, as the unit says. */
#ifndef SUMWRIGHT_PROOF_EQUAL_H
#define SUMWRIGHT_PROOF_EQUAL_H

#include "proof/aiger.h"
#include "proof/prove.h"

enum { EQUAL_TEXT_BYTES = 400 };

typedef struct {
    ProofState state;
    char text[EQUAL_TEXT_BYTES]; /* PROOF_EQUAL: what is equal; else why that is not known */
    bool shown;                  /* PROOF_DIFFERENT: an input of the unit shows it: */
    InputLevels example;
    char share[SHARE_BYTES]; /* see prove.h */
} Equality;

/* The gates are as unroll.h has them; latency: clocks from operands to result of a unit with a
 * clock; reset_low: its reset pin works when low. */
void equal_find(const Unit *unit, const Aiger *aiger, unsigned latency, bool reset_low,
                Equality *equality);

#endif
