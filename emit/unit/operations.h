/* The operations, on n-bit words a and b: everything that only has to be told once. Two witnesses
 * have a definition of their own and read none of this: model/model.c the formula on words,
 * gates/operands.c the levels of the gates. See rows.h for how a list is used. */
#ifndef SUMWRIGHT_UNIT_OPERATIONS_H
#define SUMWRIGHT_UNIT_OPERATIONS_H

#include "unit/rows.h"

#include <stdbool.h>

/* ROW(ID, mnemonic, formula, X, Y, first): the adder is given X + Y + first, whatever its structure.
 * All else follows: an operation that complements an operand is a subtraction. */
#define OPERATIONS(ROW)                                                                            \
    ROW(ADD, add, "a + b", A, B, 0)                                                                \
    ROW(ADC, adc, "a + b + carry", A, B, CIN)                                                      \
    ROW(SUB, sub, "a - b", A, NOT_B, 1)                                                            \
    ROW(SBC, sbc, "a - b - borrow", A, NOT_B, CIN)                                                 \
    ROW(RSB, rsb, "b - a", NOT_A, B, 1)                                                            \
    ROW(INC, inc, "a + 1", A, ZEROS, 1)                                                            \
    ROW(DEC, dec, "a - 1", A, ONES, 0)                                                             \
    ROW(NEG, neg, "-a", NOT_A, ZEROS, 1)                                                           \
    ROW(PASS, pass, "a", A, ZEROS, 0)

#define OPERATION_ID(ID, ...) OP_##ID,
typedef enum { OPERATIONS(OPERATION_ID) } Operation;
#undef OPERATION_ID
#define OP_COUNT (0 OPERATIONS(ROW_ONE))

/* What an input of the adder is given: a word as it is or complemented (all ones: 0 complemented). */
typedef enum { ADDEND_A, ADDEND_NOT_A, ADDEND_B, ADDEND_NOT_B, ADDEND_ZEROS, ADDEND_ONES } Addend;

/* The carry into the first column. ENTERS_CIN: the pin; in a subtraction with the sense borrow, its
 * complement. */
typedef enum { ENTERS_0, ENTERS_1, ENTERS_CIN } Enters;

typedef struct {
    const char *name;    /* the mnemonic, as the command line writes it */
    const char *pin;     /* the default name of its request pin: "do_add" */
    const char *formula; /* in words: "a - b" */
    Addend x;
    Addend y;
    Enters first;
    bool reads_b;
    bool reads_cin;
    bool subtracts; /* its carry pins say borrow or no-borrow, by Unit.sense */
} OperationFacts;

/* As the command line lists them, with their formulas. */
extern const Value operation_values[OP_COUNT];

const OperationFacts *operation_facts(Operation operation);
const char *operation_name(Operation operation);

#endif
