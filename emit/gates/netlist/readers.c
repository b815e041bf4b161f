/* See readers.h. */
#include "gates/netlist/readers.h"

#include "base/memory.h"

#include <assert.h>

void readers_find(const Netlist *netlist, Readers *readers) {
    uint32_t count = netlist->node_count;
    uint32_t *first = memory_zeroed((size_t)count + 2, sizeof *first);
    for (uint32_t k = 0; k < count; k++)
        for (int side = 0; side < 2 && netlist_is_gate(&netlist->nodes[k]); side++)
            first[literal_node(netlist->nodes[k].in[side]) + 2]++;
    for (uint32_t k = 0; k < count; k++)
        first[k + 2] += first[k + 1];
    /* first[k + 1] is where node k's readers begin, and moves on to where they end. */
    readers->reader = memory_zeroed((size_t)first[count + 1] + 1, sizeof *readers->reader);
    for (uint32_t k = 0; k < count; k++)
        for (uint32_t side = 0; side < 2 && netlist_is_gate(&netlist->nodes[k]); side++)
            readers->reader[first[literal_node(netlist->nodes[k].in[side]) + 1]++] = 2 * k + side;
    assert(first[0] == 0);
    readers->first = first;
    readers->outputs = memory_zeroed(count, sizeof *readers->outputs);
    for (uint32_t k = 0; k < netlist->output_count; k++)
        readers->outputs[literal_node(netlist->outputs[k].literal)]++;
}

void readers_free(Readers *readers) {
    memory_free(readers->first);
    memory_free(readers->reader);
    memory_free(readers->outputs);
    *readers = (Readers){0};
}
