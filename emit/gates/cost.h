/* Counts the circuitry of a netlist. */
#ifndef SUMWRIGHT_GATES_COST_H
#define SUMWRIGHT_GATES_COST_H

#include "gates/netlist.h"

typedef struct {
    uint32_t gates; /* two-input gates of any kind; XOR counts as one */
    uint32_t by_kind[NODE_KIND_COUNT];
    uint32_t inverters; /* output pins that need one */
    uint32_t levels;    /* two-input gates on the longest path */
} Cost;

/* Linear in the number of gates. */
Cost cost_count(const Netlist *netlist);

#endif
