/* The reference: what a unit must deliver, from the definitions of the operations and flags on
 * exact integers, never from gates. It includes no netlist header, so that the two stay
 * independent witnesses. */
#ifndef SUMWRIGHT_MODEL_MODEL_H
#define SUMWRIGHT_MODEL_MODEL_H

#include "model/word.h"
#include "unit/unit.h"

/* What stands at the output pins. flag[] holds every flag, whether the unit has its pin or not. */
typedef struct {
    Word result;
    bool flag[FLAG_COUNT];
} Outcome;

/* The outcome of one operation of the unit (choice: an index into unit->choice, or UNIT_NOTHING:
 * result 0, zero 1, every other flag 0) on operands of the unit's width and the level of the cin
 * pin (its sense in subtractions is the unit's; operations that do not read it ignore it). */
void model_outcome(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                   Outcome *outcome);

/* The same operation's exact result, before it is cut to the width: with the operands read as
 * unsigned numbers, and as numbers in two's complement. Both are numbers in two's complement, of
 * width + 2 bits. choice is an operation, not UNIT_NOTHING. */
void model_exact(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                 Word *exact_unsigned, Word *exact_signed);

#endif
