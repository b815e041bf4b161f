/* The mistakes: everything that only has to be told once. What each makes of a design stands in moves.c
 * (mistakes in what is added) and rules.c (in a flag). See unit/rows.h for how a list is used. */
#ifndef SUMWRIGHT_CHECK_FIND_MISTAKE_ROWS_H
#define SUMWRIGHT_CHECK_FIND_MISTAKE_ROWS_H

#include "unit/rows.h"

#include <stdbool.h>

/* ROW(ID, name, can only a subtraction show it?, what it means in one sentence): the likelier come
 * first. */
#define MISTAKES(ROW)                                                                              \
    ROW(FIRST_CARRY_MISSING, "first-carry-missing", true,                                          \
        "subtraction lacks the +1: it computes a + not b")                                         \
    ROW(OPERAND_NOT_INVERTED, "operand-not-inverted", true,                                        \
        "subtraction adds the operand itself, not its complement")                                 \
    ROW(OPERANDS_SWAPPED, "operands-swapped", true,                                                \
        "subtraction takes the operands the wrong way round")                                      \
    ROW(CONTROL_REVERSED, "control-reversed", false,                                               \
        "it adds when told to subtract and subtracts when told to add")                            \
    ROW(CARRY_SENSE_REVERSED, "carry-sense-reversed", true,                                        \
        "the carry in subtraction has the opposite sense: borrow for no borrow")                   \
    ROW(OVERFLOW_REPEATS_CARRY, "overflow-repeats-carry", false,                                   \
        "the overflow pin is the carry out")                                                       \
    ROW(OVERFLOW_FORGETS_SUBTRACTION, "overflow-forgets-subtraction", true,                        \
        "overflow in subtraction goes by the rule for addition, on the operand before inversion")  \
    ROW(OVERFLOW_INVERTED, "overflow-inverted", false, "the overflow pin is upside down")          \
    ROW(ZERO_MISSES_BITS, "zero-misses-bits", false,                                               \
        "the zero flag looks at a part of the result only")                                        \
    ROW(NEGATIVE_WRONG, "negative-wrong", false, "the negative flag is not the sign bit")          \
    ROW(BITS_REVERSED, "bits-reversed", false, "a bus is wired in the opposite order")             \
    ROW(CARRY_BROKEN, "carry-broken", false, "a carry does not reach its column")                  \
    ROW(BIT_STUCK, "bit-stuck", false, "an output never changes")                                  \
    ROW(UNDRIVEN, "undriven", false, "an output is X or Z: nothing drives it, or several do")      \
    ROW(WIDTH_SHORT, "width-short", false, "only the lower bits are right")                        \
    ROW(LATE, "late", false, "it is right, but at another clock")                                  \
    ROW(PIN_MISSING, "pin-missing", false, "a pin that was asked for is not there")                \
    ROW(PIN_WIDTH, "pin-width", false, "a pin has another width than that of the unit")            \
    ROW(UNEXPLAINED, "unexplained", false, "no mistake that is known explains it")

#define MISTAKE_ID(ID, ...) MISTAKE_##ID,
typedef enum { MISTAKE_NONE = -1, MISTAKES(MISTAKE_ID) } Mistake;
#undef MISTAKE_ID
#define MISTAKE_COUNT (0 MISTAKES(ROW_ONE))

typedef struct {
    const char *name;     /* "first-carry-missing" */
    const char *sentence; /* what it means */
    bool of_subtraction;
} MistakeFacts;

const MistakeFacts *mistake_facts(Mistake mistake);

#endif
