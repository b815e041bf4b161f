/* See cost.h. */
#include "gates/cost.h"

#include "base/memory.h"

#include <stdlib.h>

Cost cost_count(const Netlist *netlist) {
    Cost cost = {0};
    uint32_t *level = memory_zeroed(netlist->node_count, sizeof level[0]);
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (!netlist_is_gate(node))
            continue;
        uint32_t x = level[literal_node(node->in[0])];
        uint32_t y = level[literal_node(node->in[1])];
        level[k] = (x > y ? x : y) + 1;
        cost.gates++;
        cost.by_kind[node->kind]++;
    }
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        Literal literal = netlist->outputs[k].literal;
        if (level[literal_node(literal)] > cost.levels)
            cost.levels = level[literal_node(literal)];
        if (literal_inverted(literal) && !literal_is_constant(literal))
            cost.inverters++;
    }
    free(level);
    return cost;
}
