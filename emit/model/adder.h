/* What an operation gives the one adder, X + Y + first carry, as words: the operation's row
 * (unit/operations.h) with the operands put in. The worked example, the vectors and the mistakes
 * that check looks for use it. The reference itself (model.h) does not: it goes by formulas of its
 * own on exact integers, so that a slip in either shows against the other
 * (tests/unit/working_test.c). */
#ifndef SUMWRIGHT_MODEL_ADDER_H
#define SUMWRIGHT_MODEL_ADDER_H

#include "model/word.h"
#include "unit/unit.h"

/* "a", "not a", "0", "not 0" ... */
const char *addend_name(Addend addend);

/* Is it a constant, no operand? Is it complemented: a word, or all ones, which are 0 complemented?
 * The pin that it comes from; addend is no constant. */
bool addend_is_constant(Addend addend);
bool addend_is_inverted(Addend addend);
Pin addend_pin(Addend addend);

/* X (0) or Y (1) of an operation. */
Addend adder_addend(Operation operation, int which);

/* Are both X and Y operands? */
bool adder_adds_two(Operation operation);

/* The addend for the operands at the pins, which have one width; to is neither of them. */
void adder_operand(Addend addend, const Word *a, const Word *b, Word *to);

/* Does the cin pin speak of a borrow in this operation, so that the first carry is its
 * complement? Operations that do not read cin ask in vain. */
bool adder_inverts_cin(const Unit *unit, Operation operation);

/* The first carry with the cin pin at this level; and where cin, if it is read, adds and borrows
 * nothing. */
bool adder_first_carry(const Unit *unit, Operation operation, bool cin);
bool adder_first_at_rest(Operation operation);

#endif
