/* The levels of a netlist's wires for one worked operation. */
#ifndef SUMWRIGHT_DRAW_VALUES_H
#define SUMWRIGHT_DRAW_VALUES_H

#include "gates/netlist/netlist.h"
#include "work/working.h"

/* One level a node, computed by the netlist from the operation's pins; NULL for no example. The
 * caller frees it. */
uint64_t *values_of(const Netlist *netlist, const Working *example);

/* The level of a literal. */
static inline bool values_level(const uint64_t *values, Literal literal) {
    return (netlist_value(values, literal) & 1) != 0;
}

/* Is this the gate of a carry (or borrow) from column to column? Its index is the column that the
 * carry enters. */
bool values_is_carry(const Node *node);

/* The letter that stands for it before its index: c, or k for a chain that is of carries in an
 * addition and of borrows in a subtraction. */
char values_carry_letter(const Node *node);

#endif
