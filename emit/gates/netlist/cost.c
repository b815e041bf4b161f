/* See cost.h. */
#include "gates/netlist/cost.h"

#include "base/memory.h"
#include "gates/netlist/core.h"
#include "gates/netlist/readers.h"
#include "gates/prefix/prefix.h"

#include <assert.h>

static const struct {
    const char *name;
    unsigned transistors;
} cells[NODE_KIND_COUNT] = {
    [NODE_AND] = {"AND", 6},   [NODE_OR] = {"OR", 6},   [NODE_XOR] = {"XOR", 10},
    [NODE_NAND] = {"NAND", 4}, [NODE_NOR] = {"NOR", 4}, [NODE_XNOR] = {"XNOR", 10},
};

unsigned cost_transistors(NodeKind kind) {
    assert(kind >= NODE_AND && kind < NODE_KIND_COUNT);
    return cells[kind].transistors;
}

const char *cost_kind_name(NodeKind kind) {
    assert(kind >= NODE_AND && kind < NODE_KIND_COUNT);
    return cells[kind].name;
}

static void count_gates(const Netlist *netlist, Cost *cost) {
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (!netlist_is_gate(node))
            continue;
        cost->gates++;
        cost->by_kind[node->kind]++;
        cost->transistors += cost_transistors(node->kind);
    }
}

static void count_levels(const Netlist *netlist, Cost *cost) {
    uint32_t *level = memory_zeroed(netlist->node_count, sizeof level[0]);
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (!netlist_is_gate(node))
            continue;
        uint32_t x = level[literal_node(node->in[0])];
        uint32_t y = level[literal_node(node->in[1])];
        level[k] = (x > y ? x : y) + 1;
    }
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        uint32_t node = literal_node(netlist->outputs[k].literal);
        if (level[node] > cost->levels)
            cost->levels = level[node];
    }
    memory_free(level);
}

/* Counts a literal that is read, if it is a signal's inverse that has not been counted. */
static void read_inverse(Literal literal, bool *counted, uint32_t *count) {
    assert(literal != LITERAL_NONE);
    uint32_t node = literal_node(literal);
    if (!literal_inverted(literal) || literal_is_constant(literal) || counted[node])
        return;
    counted[node] = true;
    (*count)++;
}

static void count_inverters(const Netlist *netlist, Cost *cost) {
    bool *counted = memory_zeroed(netlist->node_count, sizeof counted[0]);
    for (uint32_t k = 0; k < netlist->output_count; k++)
        read_inverse(netlist->outputs[k].literal, counted, &cost->pin_inverters);
    cost->inverters = cost->pin_inverters;
    for (uint32_t k = 0; k < netlist->node_count; k++)
        for (int side = 0; side < 2 && netlist_is_gate(&netlist->nodes[k]); side++)
            read_inverse(netlist->nodes[k].in[side], counted, &cost->inverters);
    cost->transistors += (uint64_t)cost->inverters * COST_INVERTER_TRANSISTORS;
    memory_free(counted);
}

static void count_readers(const Netlist *netlist, Cost *cost) {
    Readers readers;
    readers_find(netlist, &readers);
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        uint32_t count = readers_count(&readers, k);
        if (netlist_is_gate(&netlist->nodes[k]) && count > cost->fan_out)
            cost->fan_out = count;
    }
    readers_free(&readers);
}

Cost cost_count(const Netlist *netlist) {
    const Prefix *prefix = netlist->core == NULL ? NULL : netlist->core->prefix;
    Cost cost = {.gates = 0};
    if (prefix != NULL) {
        cost.prefix_columns = prefix->columns;
        cost.prefix_cells = prefix->cell_count;
        cost.prefix_depth = prefix_depth(prefix);
    }
    count_gates(netlist, &cost);
    count_levels(netlist, &cost);
    count_inverters(netlist, &cost);
    count_readers(netlist, &cost);
    return cost;
}
