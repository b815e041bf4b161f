/* The operand row: what each operation gives the adder core. One table says, operation by
 * operation, the level of each internal control signal; the gates and the Verilog text both come
 * from it, for exactly the operations that the unit has.
 *
 *   X     = a, inverted where invert_a
 *   Y     = (b where use_b, else 0), inverted where invert_b
 *   first = set_carry, or cin (inverted where invert_cin) where use_cin
 *
 * X + Y + first is what the adder core adds (two's complement: -v = not v + 1; common practice, no
 * source).
 *
 * The same in borrow form, for structures that work on borrows in a subtraction instead of on the
 * carries of a complement: a chain that is the carry in an addition and the borrow in a
 * subtraction, whatever the operation
 *
 *   sum[i] = a[i] XOR b[i] XOR chain[i], with b = 0 where not use_b
 *   chain[i + 1] = majority(a[i] XOR turn_a, b[i] XOR turn_b, chain[i])
 *   chain[0] = set_chain, or cin (inverted where turn_cin) where chain_cin
 *
 * It follows from the first form with chain = carry XOR subtracting: three bits turned over turn
 * over their majority. */
#ifndef SUMWRIGHT_GATES_OPERANDS_H
#define SUMWRIGHT_GATES_OPERANDS_H

#include "gates/netlist/netlist.h"
#include "unit/unit.h"

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

/* Where the row's literals are found. x, y, a and b have the unit's width. */
typedef struct {
    Literal signal[SIGNAL_COUNT];
    Literal *x;
    Literal *y;
    Literal first;
    Literal *a; /* borrow form */
    Literal *b;
    Literal chain;
} Operands;

/* Adds the unit's inputs, control decoding and operand row to an empty netlist. The caller frees
 * with operands_free. */
void operands_build(const Unit *unit, Netlist *netlist, Operands *operands);
void operands_free(Operands *operands);

#endif
