/* See pairs.h. */
#include "gates/mapping/pairs.h"

#include "base/memory.h"

#include <assert.h>

/* ---- finding a pair ------------------------------------------------------------------------ */

static uint32_t first_place(const Pairs *pairs, uint32_t x, uint32_t y) {
    uint64_t mixed = (((uint64_t)x << 32) ^ y) * UINT64_C(0x9e3779b97f4a7c15);
    return (uint32_t)(mixed >> 32) & (pairs->places - 1);
}

/* The pair of two signals, a new one if need be; there is room for one a gate. */
static uint32_t find_pair(Pairs *pairs, uint32_t x, uint32_t y) {
    uint32_t low = x < y ? x : y, high = x < y ? y : x;
    uint32_t place = first_place(pairs, low, high);
    for (; pairs->place[place] != 0; place = (place + 1) & (pairs->places - 1)) {
        const uint32_t *operand = pairs->pair[pairs->place[place] - 1].operand;
        if ((operand[0] == x && operand[1] == y) || (operand[0] == y && operand[1] == x))
            return pairs->place[place] - 1;
    }
    assert(pairs->count < pairs->netlist->node_count);
    pairs->pair[pairs->count] = (Pair){.operand = {x, y}};
    pairs->place[place] = ++pairs->count;
    return pairs->count - 1;
}

/* ---- selections ---------------------------------------------------------------------------- */

/* Is a product a selection's half where the XOR of the other's operands, or one of its operands,
 * chooses? Then others are the two products with their data inverted. */
static bool choose(const Pairs *pairs, uint32_t product, uint32_t beside, uint32_t others[2]) {
    const Pair *here = &pairs->pair[pairs_pair(pairs, product)];
    uint32_t there = pairs_pair(pairs, beside);
    int shape = pairs_shape(pairs, product), beside_shape = pairs_shape(pairs, beside);
    for (int side = 0; side < 2; side++) {
        uint32_t chooser = here->operand[side];
        bool inverted = (shape >> side & 1) != 0;
        others[0] = product - (uint32_t)shape + (uint32_t)(shape ^ (side == 0 ? 2 : 1));
        if (chooser == pairs_signal(pairs, there, SHAPE_XOR)) {
            /* This half is chosen where they differ, or where inverted agree; the other half is their
             * common value, or the first's where they differ. */
            bool alike = beside_shape == 0 || beside_shape == 3;
            others[1] = beside - (uint32_t)beside_shape + (uint32_t)(beside_shape ^ 3);
            if (alike != inverted)
                return true;
        }
        for (int far = 0; far < 2; far++) {
            others[1] =
                beside - (uint32_t)beside_shape + (uint32_t)(beside_shape ^ (far == 0 ? 2 : 1));
            if (pairs->pair[there].operand[far] == chooser &&
                ((beside_shape >> far & 1) != 0) != inverted)
                return true;
        }
    }
    return false;
}

static bool is_product(const Pairs *pairs, uint32_t signal) {
    return !pairs_is_input(pairs, signal) && pairs_shape(pairs, signal) != SHAPE_XOR;
}

static void find_selection(Pairs *pairs, Pair *pair) {
    uint32_t x = pair->operand[0], y = pair->operand[1];
    if (!is_product(pairs, x) || !is_product(pairs, y))
        return;
    uint32_t swapped[2];
    if (choose(pairs, x, y, pair->other)) {
        pair->selects = true;
    } else if (choose(pairs, y, x, swapped)) {
        pair->selects = true;
        pair->other[0] = swapped[1];
        pair->other[1] = swapped[0];
    }
}

/* ---- gates --------------------------------------------------------------------------------- */

static Term product(Pairs *pairs, Term x, Term y) {
    if (x == LITERAL_0 || y == LITERAL_0 || x == literal_not(y))
        return LITERAL_0;
    if (x == LITERAL_1 || x == y)
        return y;
    if (y == LITERAL_1)
        return x;
    uint32_t pair = find_pair(pairs, x >> 1, y >> 1);
    bool swapped = pairs->pair[pair].operand[0] != x >> 1;
    uint32_t invert_x = (swapped ? y : x) & 1, invert_y = (swapped ? x : y) & 1;
    if (invert_x && invert_y && !pairs->pair[pair].selects)
        find_selection(pairs, &pairs->pair[pair]);
    return pairs_signal(pairs, pair, (int)(invert_x | invert_y << 1)) * 2;
}

static Term difference(Pairs *pairs, Term x, Term y) {
    if (x <= LITERAL_1 || y <= LITERAL_1 || x >> 1 == y >> 1)
        return x >> 1 == y >> 1 ? (x ^ y) & 1 : x <= LITERAL_1 ? y ^ x : x ^ y;
    uint32_t pair = find_pair(pairs, x >> 1, y >> 1);
    return pairs_signal(pairs, pair, SHAPE_XOR) * 2 + ((x ^ y) & 1);
}

/* OR is an AND of inverses, inverted; and the dual of a function inverts its inputs and outputs. */
static Term gate_term(Pairs *pairs, const Node *gate, bool dual) {
    assert(netlist_is_gate(gate));
    Term x = pairs->term[literal_node(gate->in[0])] ^ (gate->in[0] & 1);
    Term y = pairs->term[literal_node(gate->in[1])] ^ (gate->in[1] & 1);
    bool inverted = gate->kind == NODE_NAND || gate->kind == NODE_NOR || gate->kind == NODE_XNOR;
    if (gate->kind == NODE_XOR || gate->kind == NODE_XNOR)
        return difference(pairs, x, y) ^ (inverted != dual);
    bool sum = gate->kind == NODE_OR || gate->kind == NODE_NOR;
    if (sum != dual)
        return product(pairs, literal_not(x), literal_not(y)) ^ !inverted;
    return product(pairs, x, y) ^ inverted;
}

void pairs_find(const Netlist *netlist, bool dual, Pairs *pairs) {
    uint32_t nodes = netlist->node_count, inputs = 0;
    while (inputs + 1 < nodes && netlist->nodes[inputs + 1].kind == NODE_INPUT)
        inputs++;
    *pairs = (Pairs){.netlist = netlist, .inputs = inputs, .places = 64};
    while (pairs->places < 2 * nodes)
        pairs->places *= 2;
    pairs->pair = memory_zeroed(nodes, sizeof pairs->pair[0]);
    pairs->term = memory_zeroed(nodes, sizeof pairs->term[0]);
    pairs->place = memory_zeroed(pairs->places, sizeof pairs->place[0]);
    for (uint32_t k = 1; k < nodes; k++)
        pairs->term[k] = k <= inputs ? 2 * k : gate_term(pairs, &netlist->nodes[k], dual);
    pairs->source = memory_zeroed(pairs_signals(pairs), sizeof pairs->source[0]);
    for (uint32_t k = nodes; k-- > 1;)
        pairs->source[pairs->term[k] >> 1] = k;
    pairs->source[0] = 0;
}

void pairs_free(Pairs *pairs) {
    memory_free(pairs->pair);
    memory_free(pairs->term);
    memory_free(pairs->source);
    memory_free(pairs->place);
    *pairs = (Pairs){0};
}
