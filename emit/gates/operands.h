/* The operand row: what each operation gives the adder core. One table says, operation by
 * operation, the level of each internal control signal; the gates and the Verilog text both come
 * from it, for exactly the operations that the unit has.
 *
 *   X     = a, inverted where invert_a
 *   Y     = (b where use_b, else 0), inverted where invert_b
 *   first = set_carry, or cin (inverted where invert_cin) where use_cin
 *
 * X + Y + first is what the adder core adds (two's complement: -v = not v + 1; common practice, no
 * source). */
#ifndef SUMWRIGHT_GATES_OPERANDS_H
#define SUMWRIGHT_GATES_OPERANDS_H

#include "gates/netlist.h"
#include "unit/unit.h"

typedef enum {
    SIGNAL_INVERT_A,
    SIGNAL_USE_B,
    SIGNAL_INVERT_B,
    SIGNAL_SET_CARRY,
    SIGNAL_USE_CIN,
    SIGNAL_INVERT_CIN,
    SIGNAL_SUBTRACTING, /* the carry pins speak of a borrow */
    SIGNAL_ACTIVE,      /* something is requested */
    SIGNAL_COUNT
} Signal;

/* A control signal over the unit's operations. */
typedef enum {
    LEVEL_0,      /* always 0 */
    LEVEL_1,      /* always 1 */
    LEVEL_VARIES, /* 1 for the operations of SignalPlan.on */
} Level;

typedef struct {
    Level level;
    uint32_t on;   /* bit k: 1 for choice k */
    uint32_t free; /* bit k: no matter for choice k (then on has 0 there) */
} SignalPlan;

SignalPlan operands_signal(const Unit *unit, Signal signal);
const char *signal_name(Signal signal); /* "invert_b" */

/* Where the row's literals are found. x and y have the unit's width. */
typedef struct {
    Literal signal[SIGNAL_COUNT];
    Literal *x;
    Literal *y;
    Literal first;
} Operands;

/* Adds the unit's inputs, control decoding and operand row to an empty netlist. The caller frees
 * with operands_free. */
void operands_build(const Unit *unit, Netlist *netlist, Operands *operands);
void operands_free(Operands *operands);

#endif
