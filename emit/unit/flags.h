/* The flags: everything that only has to be told once. What a flag *is* stands in model/model.c,
 * and independently in gates/flags.c. See rows.h for how a list is used. */
#ifndef SUMWRIGHT_UNIT_FLAGS_H
#define SUMWRIGHT_UNIT_FLAGS_H

#include "unit/rows.h"

#include <stdbool.h>

/* ROW(ID, pin, spelling, standard, meaning): the pin's default name; how the command line writes
 * the flag; is it there unless --flags says otherwise; what a 1 says, as the comment in the
 * generated files has it. */
#define FLAGS(ROW)                                                                                 \
    ROW(CARRY, carry, "carry", true, "the carry; in a subtraction a borrow, or no borrow")         \
    ROW(OVERFLOW, overflow, "overflow", true, "the exact signed result does not fit")              \
    ROW(ZERO, zero, "zero", true, "the result is 0")                                               \
    ROW(NEGATIVE, negative, "negative", true, "the sign bit of the result")                        \
    ROW(LESS_SIGNED, less_signed, "less-signed", false, "the exact signed result is below 0")      \
    ROW(LESS_UNSIGNED, less_unsigned, "less-unsigned", false,                                      \
        "the exact unsigned result is below 0")                                                    \
    ROW(PARITY, parity, "parity", false, "an odd number of the bits of the result is 1")           \
    ROW(HALF_CARRY, half_carry, "half-carry", false,                                               \
        "what carry says, for the lowest four bits alone")

#define FLAG_ID(ID, ...) FLAG_##ID,
typedef enum { FLAGS(FLAG_ID) } Flag;
#undef FLAG_ID
#define FLAG_COUNT (0 FLAGS(ROW_ONE))

typedef struct {
    const char *name; /* as the command line writes it */
    const char *pin;  /* the pin's default name */
    bool standard;    /* a unit has it unless told otherwise */
    const char *meaning;
} FlagFacts;

/* As the command line lists them. */
extern const Value flag_values[FLAG_COUNT];

const FlagFacts *flag_facts(Flag flag);
const char *flag_name(Flag flag);

#endif
