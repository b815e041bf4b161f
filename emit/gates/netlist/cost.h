/* Counts the circuitry of a netlist. */
#ifndef SUMWRIGHT_GATES_NETLIST_COST_H
#define SUMWRIGHT_GATES_NETLIST_COST_H

#include "gates/netlist/netlist.h"

typedef struct {
    uint32_t gates; /* two-input gates of any kind; XOR counts as one, and an inverted input
                       belongs to its gate */
    uint32_t by_kind[NODE_KIND_COUNT];
    uint32_t inverters;      /* signals that a gate or an output pin reads inverted, each once */
    uint32_t pin_inverters;  /* those that an output pin reads inverted */
    uint32_t levels;         /* two-input gates on the longest path */
    uint32_t fan_out;        /* the most gate inputs and output pins that one gate drives; what the
                                input pins drive is not counted */
    uint64_t transistors;    /* of all gates and inverters, see cost_transistors */
    uint32_t prefix_columns; /* of the prefix network that the carries come from, or 0: then */
    uint32_t prefix_cells;   /* its cells */
    uint32_t prefix_depth;   /* and its levels of cells */
} Cost;

/* Linear in the number of gates. */
Cost cost_count(const Netlist *netlist);

/* Transistors of a gate in static CMOS: NAND and NOR 4, AND and OR with an inverter behind them 6,
 * XOR and XNOR 10 (a NOR and an and-or-invert, or their duals). Common practice, no source. */
unsigned cost_transistors(NodeKind kind);
enum { COST_INVERTER_TRANSISTORS = 2 };

/* "AND" */
const char *cost_kind_name(NodeKind kind);

#endif
