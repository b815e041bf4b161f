/* The levels of a netlist's wires for one worked operation. */
#ifndef SUMWRIGHT_DRAW_VALUES_H
#define SUMWRIGHT_DRAW_VALUES_H

#include "gates/netlist.h"
#include "work/working.h"

/* One level a node, computed by the netlist from the operation's pins; NULL for no example. The
 * caller frees it. */
uint64_t *values_of(const Netlist *netlist, const Working *example);

/* The level of a literal. */
static inline bool values_level(const uint64_t *values, Literal literal) {
    return (netlist_value(values, literal) & 1) != 0;
}

#endif
