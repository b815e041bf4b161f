/* The operations, on n-bit words a and b: everything that only has to be told once. Each witness
 * has its own definition beside this: model/model.c the formula, gates/operands.c the gates' levels,
 * and the working what the adder is given. See rows.h for how a list is used. */
#ifndef SUMWRIGHT_UNIT_OPERATIONS_H
#define SUMWRIGHT_UNIT_OPERATIONS_H

#include "unit/rows.h"

#include <stdbool.h>

/* ROW(ID, mnemonic, formula, reads b, reads cin, subtracts): an operation that subtracts
 * has a borrow or no-borrow on its carry pins, by Sense. */
#define OPERATIONS(ROW)                                                                            \
    ROW(ADD, add, "a + b", true, false, false)                                                     \
    ROW(ADC, adc, "a + b + carry", true, true, false)                                              \
    ROW(SUB, sub, "a - b", true, false, true)                                                      \
    ROW(SBC, sbc, "a - b - borrow", true, true, true)                                              \
    ROW(RSB, rsb, "b - a", true, false, true)                                                      \
    ROW(INC, inc, "a + 1", false, false, false)                                                    \
    ROW(DEC, dec, "a - 1", false, false, true)                                                     \
    ROW(NEG, neg, "-a", false, false, true)                                                        \
    ROW(PASS, pass, "a", false, false, false)

#define OPERATION_ID(ID, ...) OP_##ID,
typedef enum { OPERATIONS(OPERATION_ID) } Operation;
#undef OPERATION_ID
#define OP_COUNT (0 OPERATIONS(ROW_ONE))

typedef struct {
    const char *name;    /* the mnemonic, as the command line writes it */
    const char *pin;     /* the default name of its request pin: "do_add" */
    const char *formula; /* in words: "a - b" */
    bool reads_b;
    bool reads_cin;
    bool subtracts; /* its carry pins say borrow or no-borrow, by Unit.sense */
} OperationFacts;

const OperationFacts *operation_facts(Operation operation);
const char *operation_name(Operation operation);

#endif
