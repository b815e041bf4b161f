/* What no circuit for a unit can do without, as far as anybody has proved it: the figures that its
 * cost is to be held against. They are about two-input gates of any kind, whatever the structure.
 */
#ifndef SUMWRIGHT_GATES_BOUND_H
#define SUMWRIGHT_GATES_BOUND_H

#include "unit/unit.h"

typedef struct {
    uint32_t gates;    /* at least so many; 0: no bound known */
    const char *proof; /* whose, in a few words; "" without a bound */
    uint32_t levels;   /* at least so many; 0: no bound known */
    uint32_t inputs;   /* pins that decide the sign bit, where levels is known */
} Bound;

Bound bound_of(const Unit *unit);

/* The fewest cells of a prefix network on so many columns, 1 or more, within this depth in cells:
 * size + depth >= 2n - 2 (M. Snir, "Depth-size trade-offs for parallel prefix computation", 1986),
 * and no fewer than n - 1, as each further column needs a cell of its own. */
uint32_t bound_prefix_cells(uint32_t columns, uint32_t depth);

#endif
