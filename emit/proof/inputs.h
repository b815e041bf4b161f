/* The pins of a unit as variables of decision diagrams: control pins and cin on top, then the
 * operands from the highest bit to the lowest, a and b in turn. In this order the diagram of every
 * carry contains that of the carry before it, whatever the circuit.
 *
 * A one-hot request is a variable only where no earlier request is made, else 0: as functions, the
 * request pins take every value inside the contract and none outside it. So what is compared over
 * these functions is compared inside the contract alone. */
#ifndef SUMWRIGHT_PROOF_INPUTS_H
#define SUMWRIGHT_PROOF_INPUTS_H

#include "proof/diagram.h"
#include "unit/unit.h"

enum { INPUTS_CONTROL_MAX = 16, INPUTS_MAX = INPUTS_CONTROL_MAX + 1 + 2 * UNIT_WIDTH_MAX };

typedef struct {
    const Unit *unit;
    unsigned levels;        /* variables: bits of input pins, but clock, reset and enable */
    Diagram at[INPUTS_MAX]; /* by level: the function of that bit */
} Inputs;

/* One input of the unit; bits past the width are 0. */
typedef struct {
    uint32_t control; /* the control pins as one number, see unit_control_value */
    bool cin;
    uint64_t a[UNIT_WIDTH_MAX / 64]; /* bit k is bit k % 64 of a[k / 64] */
    uint64_t b[UNIT_WIDTH_MAX / 64];
} InputLevels;

/* Variables that the unit needs, 1 or more. */
unsigned inputs_levels(const Unit *unit);

/* The functions of all pins, held until inputs_drop. The unit must outlive them. */
void inputs_make(const Unit *unit, Diagrams *diagrams, Inputs *inputs);
void inputs_drop(Diagrams *diagrams, const Inputs *inputs);

/* The function of one bit of the control pins taken as one number, and of one bit of another input
 * pin: cin, a or b, or a control pin. DIAGRAM_0 where the unit has no such pin. */
Diagram inputs_control(const Inputs *inputs, unsigned bit);
Diagram inputs_of(const Inputs *inputs, Pin pin, unsigned bit);

/* Where the contract holds, over the variables themselves: at most one request. */
Diagram inputs_contract(Diagrams *diagrams, const Inputs *inputs);

/* The levels at the pins for values of the variables. */
void inputs_levels_of(const Inputs *inputs, const bool *variable, InputLevels *levels);

/* Inputs inside the contract: this many times 2 to the power of *exponent; the number is odd. */
unsigned inputs_count(const Unit *unit, unsigned *exponent);

#endif
