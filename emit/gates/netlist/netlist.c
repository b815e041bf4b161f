/* See netlist.h. */
#include "gates/netlist/netlist.h"

#include "base/memory.h"
#include "gates/netlist/core.h"

#include <assert.h>
#include <string.h>

static uint32_t add_node(Netlist *netlist, Node node) {
    assert(netlist->node_count < UINT32_MAX / 4);
    netlist->nodes = memory_grow(netlist->nodes, &netlist->node_room, netlist->node_count + 1u,
                                 sizeof netlist->nodes[0]);
    netlist->nodes[netlist->node_count] = node;
    return netlist->node_count++;
}

void netlist_init(Netlist *netlist) {
    memset(netlist, 0, sizeof *netlist);
    netlist->column = -1;
    add_node(netlist, (Node){.kind = NODE_CONSTANT, .index = -1, .low = -1, .column = -1});
}

void netlist_free(Netlist *netlist) {
    memory_free(netlist->nodes);
    memory_free(netlist->outputs);
    core_free(netlist->core);
    memset(netlist, 0, sizeof *netlist);
}

Literal netlist_input(Netlist *netlist, Pin pin, unsigned bit) {
    assert(!pin_is_output(pin) && bit < UNIT_WIDTH_MAX);
    assert(!netlist_is_gate(&netlist->nodes[netlist->node_count - 1]));
    Node node = {.kind = NODE_INPUT, .index = -1, .low = -1, .column = -1, .pin = pin, .bit = bit};
    return add_node(netlist, node) * 2;
}

void netlist_output(Netlist *netlist, Pin pin, unsigned bit, Literal literal) {
    assert(pin_is_output(pin) && bit < UNIT_WIDTH_MAX);
    assert(netlist_has(netlist, literal));
    netlist->outputs = memory_grow(netlist->outputs, &netlist->output_room,
                                   netlist->output_count + 1u, sizeof netlist->outputs[0]);
    netlist->outputs[netlist->output_count++] = (Output){pin, bit, literal};
}

void netlist_enter(Netlist *netlist, Part part, int column) {
    assert(column >= -1);
    netlist->part = part;
    netlist->column = column;
}

/* ---- gates -------------------------------------------------------------------------------- */

/* The same function with the fewest inversions on its inputs (see netlist.h). */
static void tidy(Node *gate) {
    bool first = literal_inverted(gate->in[0]);
    bool second = literal_inverted(gate->in[1]);
    if (gate->kind == NODE_XOR || gate->kind == NODE_XNOR) {
        gate->in[0] &= ~1u;
        gate->in[1] &= ~1u;
        if (first != second)
            gate->kind = gate->kind == NODE_XOR ? NODE_XNOR : NODE_XOR;
        return;
    }
    bool both = first && second;
    bool bubbled = gate->kind == NODE_NAND || gate->kind == NODE_NOR;
    /* De Morgan: not both AND = OR of the complements, and so on. */
    static const NodeKind dual[NODE_KIND_COUNT] = {
        [NODE_AND] = NODE_NOR, [NODE_OR] = NODE_NAND, [NODE_NAND] = NODE_OR, [NODE_NOR] = NODE_AND};
    if (both || (bubbled && (first || second))) {
        gate->kind = dual[gate->kind];
        gate->in[0] ^= 1u;
        gate->in[1] ^= 1u;
    }
}

static Literal add_gate(Netlist *netlist, NodeKind kind, Literal x, Literal y) {
    assert(kind >= NODE_AND && kind < NODE_KIND_COUNT);
    assert(netlist_has(netlist, x) && netlist_has(netlist, y));
    Node gate = {.kind = kind,
                 .in = {x, y},
                 .index = -1,
                 .low = -1,
                 .part = netlist->part,
                 .column = netlist->column};
    tidy(&gate);
    return add_node(netlist, gate) * 2;
}

Literal netlist_gate(Netlist *netlist, NodeKind kind, Literal x, Literal y) {
    assert(!literal_inverted(x) && !literal_inverted(y));
    return add_gate(netlist, kind, x, y);
}

Literal netlist_and(Netlist *netlist, Literal x, Literal y) {
    assert(netlist_has(netlist, x) && netlist_has(netlist, y));
    if (x == LITERAL_0 || y == LITERAL_0 || x == literal_not(y))
        return LITERAL_0;
    if (x == LITERAL_1 || x == y)
        return y;
    if (y == LITERAL_1)
        return x;
    return add_gate(netlist, NODE_AND, x, y);
}

Literal netlist_or(Netlist *netlist, Literal x, Literal y) {
    assert(netlist_has(netlist, x) && netlist_has(netlist, y));
    if (x == LITERAL_1 || y == LITERAL_1 || x == literal_not(y))
        return LITERAL_1;
    if (x == LITERAL_0 || x == y)
        return y;
    if (y == LITERAL_0)
        return x;
    return add_gate(netlist, NODE_OR, x, y);
}

static bool is_sum(const Node *node) {
    return node->kind == NODE_XOR || node->kind == NODE_XNOR;
}

/* Is x an XOR one of whose inputs is y? Then rest is x XOR y, the other input. */
static bool without(const Netlist *netlist, Literal x, Literal y, Literal *rest) {
    const Node *gate = &netlist->nodes[literal_node(x)];
    for (int side = 0; side < 2 && is_sum(gate); side++) {
        if (literal_node(gate->in[side]) != literal_node(y))
            continue;
        *rest = gate->in[1 - side] ^ ((x ^ y ^ gate->in[side]) & 1u);
        if (gate->kind == NODE_XNOR)
            *rest = literal_not(*rest);
        return true;
    }
    return false;
}

Literal netlist_xor(Netlist *netlist, Literal x, Literal y) {
    assert(netlist_has(netlist, x) && netlist_has(netlist, y));
    if (literal_is_constant(x))
        return y ^ x;
    if (literal_is_constant(y))
        return x ^ y;
    if (literal_node(x) == literal_node(y))
        return x == y ? LITERAL_0 : LITERAL_1;
    Literal rest, other;
    if (without(netlist, x, y, &rest) || without(netlist, y, x, &rest))
        return rest;
    const Node *gate = &netlist->nodes[literal_node(y)];
    for (int side = 0; side < 2 && is_sum(gate); side++)
        if (without(netlist, x, gate->in[side], &rest) &&
            without(netlist, y, gate->in[side], &other))
            return netlist_xor(netlist, rest, other);
    return add_gate(netlist, NODE_XOR, x, y);
}

Literal netlist_mean_span(Netlist *netlist, Literal literal, Role role, int high, int low) {
    assert(netlist_has(netlist, literal));
    assert(role > ROLE_NONE && role < ROLE_COUNT && high >= low);
    Node *node = &netlist->nodes[literal_node(literal)];
    if (netlist_is_gate(node) && node->role == ROLE_NONE) {
        node->role = role;
        node->complement = literal_inverted(literal);
        node->index = high;
        node->low = low;
    }
    return literal;
}

Literal netlist_mean(Netlist *netlist, Literal literal, Role role, int index) {
    return netlist_mean_span(netlist, literal, role, index, -1);
}

/* ---- finishing ---------------------------------------------------------------------------- */

enum { PLAIN = 1, INVERTED = 2 }; /* how outputs read a node */

static Literal flipped(Literal literal, const void *how) {
    const bool *flips = how;
    return flips[literal_node(literal)] ? literal_not(literal) : literal;
}

static void flip_core(Netlist *netlist, const unsigned char *read) {
    bool *flips = memory_zeroed(netlist->node_count, sizeof flips[0]);
    for (uint32_t k = 0; k < netlist->node_count; k++)
        flips[k] = read[k] == INVERTED && netlist_is_gate(&netlist->nodes[k]);
    core_change(netlist->core, flipped, flips);
    memory_free(flips);
}

/* Inverts each gate that outputs read inverted only, so that no inverter is needed there. */
static void invert_gates(Netlist *netlist) {
    unsigned char *read = memory_zeroed(netlist->node_count, 1);
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        Literal literal = netlist->outputs[k].literal;
        read[literal_node(literal)] |= literal_inverted(literal) ? INVERTED : PLAIN;
    }
    static const NodeKind opposite[NODE_KIND_COUNT] = {
        [NODE_AND] = NODE_NAND, [NODE_OR] = NODE_NOR, [NODE_XOR] = NODE_XNOR,
        [NODE_NAND] = NODE_AND, [NODE_NOR] = NODE_OR, [NODE_XNOR] = NODE_XOR};
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        Node *gate = &netlist->nodes[k];
        if (!netlist_is_gate(gate))
            continue;
        for (int side = 0; side < 2; side++)
            if (read[literal_node(gate->in[side])] == INVERTED &&
                netlist_is_gate(&netlist->nodes[literal_node(gate->in[side])]))
                gate->in[side] ^= 1u;
        if (read[k] == INVERTED) {
            gate->kind = opposite[gate->kind];
            gate->complement = !gate->complement;
        }
        tidy(gate);
    }
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        Literal *literal = &netlist->outputs[k].literal;
        uint32_t node = literal_node(*literal);
        if (read[node] == INVERTED && netlist_is_gate(&netlist->nodes[node]))
            *literal ^= 1u;
    }
    if (netlist->core != NULL)
        flip_core(netlist, read);
    memory_free(read);
}

static Literal moved(Literal literal, const void *how) {
    const uint32_t *place = how;
    uint32_t node = place[literal_node(literal)];
    return node == 0 ? LITERAL_NONE : node * 2 + (literal & 1u);
}

static void drop_unread(Netlist *netlist) {
    uint32_t *place = memory_zeroed(netlist->node_count, sizeof place[0]);
    for (uint32_t k = 0; k < netlist->output_count; k++)
        place[literal_node(netlist->outputs[k].literal)] = 1;
    for (uint32_t k = netlist->node_count; k-- > 0;) {
        const Node *node = &netlist->nodes[k];
        if (place[k] != 0 && netlist_is_gate(node))
            for (int side = 0; side < 2; side++)
                place[literal_node(node->in[side])] = 1;
    }
    uint32_t kept = 0;
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        Node node = netlist->nodes[k];
        if (netlist_is_gate(&node) && place[k] == 0)
            continue;
        place[k] = kept;
        if (netlist_is_gate(&node))
            for (int side = 0; side < 2; side++)
                node.in[side] = place[literal_node(node.in[side])] * 2 + (node.in[side] & 1u);
        netlist->nodes[kept++] = node;
    }
    netlist->node_count = kept;
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        Literal *literal = &netlist->outputs[k].literal;
        *literal = place[literal_node(*literal)] * 2 + (*literal & 1u);
    }
    if (netlist->core != NULL)
        core_change(netlist->core, moved, place);
    memory_free(place);
}

void netlist_finish(Netlist *netlist) {
    assert(netlist->output_count > 0);
    drop_unread(netlist);
    invert_gates(netlist);
}

/* ---- simulation --------------------------------------------------------------------------- */

void netlist_evaluate(const Netlist *netlist, uint64_t *values) {
    values[0] = 0;
    for (uint32_t k = 1; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        assert(!netlist_is_gate(node) ||
               (literal_node(node->in[0]) < k && literal_node(node->in[1]) < k));
        if (netlist_is_gate(node))
            values[k] = netlist_gate_value(node->kind, netlist_value(values, node->in[0]),
                                           netlist_value(values, node->in[1]));
    }
}
