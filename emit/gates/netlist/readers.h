/* Who reads each node of a netlist: the way forward, from inputs to outputs, that the netlist
 * itself, in which gates name what they read, does not have. */
#ifndef SUMWRIGHT_GATES_NETLIST_READERS_H
#define SUMWRIGHT_GATES_NETLIST_READERS_H

#include "gates/netlist/netlist.h"

#include <assert.h>

typedef struct {
    uint32_t *first;   /* node k is read by gate inputs reader[first[k] ... first[k + 1] - 1], */
    uint32_t *reader;  /* each the reading node times two, plus the input's number; ascending */
    uint32_t *outputs; /* and by this many outputs */
} Readers;

/* Linear in the number of gates. Free with readers_free. */
void readers_find(const Netlist *netlist, Readers *readers);
void readers_free(Readers *readers);

/* The number of gate inputs and outputs that read a node. */
static inline uint32_t readers_count(const Readers *readers, uint32_t node) {
    assert(readers->first[node] <= readers->first[node + 1]);
    return readers->first[node + 1] - readers->first[node] + readers->outputs[node];
}

#endif
