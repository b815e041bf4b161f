/* See columns.h. */
#include "gates/structures/columns.h"

#include "base/memory.h"

#include <stdlib.h>

/* Is y something XOR first, or known as its constant? */
static bool comes_with(const Netlist *netlist, Literal y, Literal first) {
    const Node *gate = &netlist->nodes[literal_node(y)];
    bool sum = gate->kind == NODE_XOR || gate->kind == NODE_XNOR;
    bool turned = literal_inverted(y) != (gate->kind == NODE_XNOR);
    return literal_is_constant(first) || (sum && turned == literal_inverted(first) &&
                                          (literal_node(gate->in[0]) == literal_node(first) ||
                                           literal_node(gate->in[1]) == literal_node(first)));
}

static Literal *room(unsigned count) {
    return memory_zeroed(count, sizeof(Literal));
}

static uint32_t mark_first(Netlist *netlist, Literal first) {
    if (literal_is_constant(first))
        return LANDMARK_NONE;
    return landmarks_cell(netlist, (Landmark){.kind = LANDMARK_FIRST,
                                              .top = -1,
                                              .bottom = -1,
                                              .generates = first,
                                              .passes = LITERAL_NONE});
}

static uint32_t mark_column(Netlist *netlist, const Adder *adder, const Columns *columns,
                            unsigned i, Literal x, Literal y) {
    Landmarks *landmarks = netlist->landmarks;
    if (landmarks == NULL)
        return LANDMARK_NONE;
    landmarks->x[i] = x;
    landmarks->y[i] = y;
    landmarks->plain[i] = adder->x[i];
    landmarks->half[i] = columns->half[i];
    return landmarks_cell(
        netlist, landmark_of(LANDMARK_COLUMN, i, i, columns->generates[i], columns->passes[i]));
}

void columns_open(Netlist *netlist, const Adder *adder, Columns *columns) {
    unsigned width = adder->width;
    bool turns = comes_with(netlist, adder->y[0], adder->first);
    *columns = (Columns){.width = width,
                         .turned = turns ? adder->first : LITERAL_0,
                         .stem = "carry",
                         .generates = room(width),
                         .passes = room(width),
                         .half = room(width),
                         .carry = room(width + 1),
                         .column = room(width),
                         .giver = room(width + 1)};
    if (columns->turned == LITERAL_1)
        columns->stem = adder->subtracting == LITERAL_1 ? "borrow" : "no_carry";
    else if (columns->turned != LITERAL_0)
        columns->stem = "carry_or_borrow";
    netlist->carry_stem = columns->stem;
    netlist->turned = columns->turned == LITERAL_0   ? TURNED_NEVER
                      : columns->turned == LITERAL_1 ? TURNED_ALWAYS
                                                     : TURNED_BY_FIRST;
    columns->first = netlist_xor(netlist, adder->first, columns->turned);
    columns->carry[0] = columns->first;
    netlist->entered = columns->first != LITERAL_0;
    columns->giver[0] = mark_first(netlist, columns->first);
    for (unsigned i = 0; i < width; i++) {
        int column = (int)i;
        netlist_enter(netlist, PART_COLUMNS, column);
        Literal x = netlist_xor(netlist, adder->x[i], columns->turned);
        Literal y = netlist_xor(netlist, adder->y[i], columns->turned);
        netlist_name(netlist, x, "turned_a", column);
        columns->half[i] = netlist_xor(netlist, adder->x[i], y);
        netlist_name(netlist, columns->half[i], "half_sum", column);
        columns->generates[i] = netlist_and(netlist, x, y);
        netlist_name(netlist, columns->generates[i], "generates", column);
        /* One of the two at least, or exactly one, is all the same beside "both"; the second is
         * there already where nothing is turned over as the operation goes, the first costs nothing
         * where one of the two is known, and beside a 1 it says that every carry passes. */
        bool known = literal_is_constant(x) || literal_is_constant(y);
        columns->passes[i] = literal_is_constant(columns->turned) && !known
                                 ? columns->half[i] ^ columns->turned
                                 : netlist_or(netlist, x, y);
        netlist_name(netlist, columns->passes[i], "passes", column);
        columns->column[i] = mark_column(netlist, adder, columns, i, x, y);
    }
}

static void mark_ends(Netlist *netlist, const Adder *adder, const Columns *columns) {
    Landmarks *landmarks = netlist->landmarks;
    if (landmarks == NULL)
        return;
    landmarks->turned = columns->turned;
    for (unsigned i = 0; i < columns->width; i++)
        landmarks->sum[i] = adder->sum[i];
    for (unsigned i = 0; i <= columns->width; i++) {
        landmarks->carry[i] = columns->carry[i];
        if (!literal_is_constant(columns->carry[i]))
            landmarks->giver[i] = columns->giver[i];
    }
}

void columns_close(Netlist *netlist, Adder *adder, Columns *columns) {
    for (unsigned i = 0; i <= columns->width; i++)
        netlist_name(netlist, columns->carry[i], columns->stem, (int)i);
    netlist_enter(netlist, PART_SUMS, -1);
    for (unsigned i = 0; i < columns->width; i++) {
        adder->sum[i] = netlist_xor(netlist, columns->half[i], columns->carry[i]);
        netlist_name(netlist, adder->sum[i], "sum", (int)i);
    }
    for (unsigned i = 0; i <= columns->width; i++)
        adder->carry[i] = columns->carry[i];
    adder->turned = columns->turned;
    mark_ends(netlist, adder, columns);
    free(columns->generates);
    free(columns->passes);
    free(columns->half);
    free(columns->carry);
    free(columns->column);
    free(columns->giver);
}

unsigned columns_group_end(GroupSize *size, unsigned width, unsigned group, unsigned start) {
    unsigned end = start + size(width, group);
    return end < width ? end : width;
}

Literal columns_past(Netlist *netlist, Literal generates, Literal passes, Literal carry,
                     const char *stem, unsigned column) {
    Literal through = netlist_and(netlist, passes, carry);
    netlist_name(netlist, through, stem, (int)column);
    return netlist_or(netlist, generates, through);
}
