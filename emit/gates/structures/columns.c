/* See columns.h. */
#include "gates/structures/columns.h"

#include "base/memory.h"

#include <assert.h>

/* Is y something XOR first, or known as its constant? */
static bool comes_with(const Netlist *netlist, Literal y, Literal first) {
    const Node *gate = &netlist->nodes[literal_node(y)];
    bool sum = gate->kind == NODE_XOR || gate->kind == NODE_XNOR;
    bool inverted = literal_inverted(y) != (gate->kind == NODE_XNOR);
    return literal_is_constant(first) || (sum && inverted == literal_inverted(first) &&
                                          (literal_node(gate->in[0]) == literal_node(first) ||
                                           literal_node(gate->in[1]) == literal_node(first)));
}

static Literal *room(unsigned count) {
    return memory_zeroed(count, sizeof(Literal));
}

static uint32_t mark_first(Netlist *netlist, Literal first) {
    if (literal_is_constant(first))
        return CORE_NO_CELL;
    return core_cell(netlist->core, (CoreCell){.kind = CORE_FIRST,
                                               .top = -1,
                                               .bottom = -1,
                                               .generates = first,
                                               .passes = LITERAL_NONE});
}

static uint32_t mark_column(Netlist *netlist, const Columns *columns, unsigned i, Literal x,
                            Literal y) {
    AdderCore *core = netlist->core;
    core->x[i] = x;
    core->y[i] = y;
    core->half[i] = columns->half[i];
    return core_cell(core,
                     core_cell_of(CORE_COLUMN, i, i, columns->generates[i], columns->passes[i]));
}

void columns_open(Netlist *netlist, const Adder *adder, Columns *columns) {
    assert(adder->width > 0 && netlist_has(netlist, adder->first));
    unsigned width = adder->width;
    /* Turned over, what travels is a carry or a borrow: so it must be a borrow in every subtraction. */
    bool turns = comes_with(netlist, adder->y[0], adder->first) &&
                 (literal_is_constant(adder->first) || adder->first == adder->subtracting);
    *columns = (Columns){.width = width,
                         .turned = turns ? adder->first : LITERAL_0,
                         .generates = room(width),
                         .passes = room(width),
                         .half = room(width),
                         .carry = room(width + 1),
                         .column = room(width),
                         .giver = room(width + 1)};
    core_set_sense(netlist->core, columns->turned, adder->subtracting);
    columns->role = core_carry_role(netlist->core);
    columns->first = netlist_xor(netlist, adder->first, columns->turned);
    columns->carry[0] = columns->first;
    columns->giver[0] = mark_first(netlist, columns->first);
    for (unsigned i = 0; i < width; i++) {
        int column = (int)i;
        netlist_enter(netlist, PART_COLUMNS, column);
        Literal x = netlist_xor(netlist, adder->x[i], columns->turned);
        Literal y = netlist_xor(netlist, adder->y[i], columns->turned);
        netlist_mean(netlist, x, ROLE_TURNED_A, column);
        columns->half[i] = netlist_xor(netlist, adder->x[i], y);
        netlist_mean(netlist, columns->half[i], ROLE_HALF_SUM, column);
        columns->generates[i] = netlist_and(netlist, x, y);
        netlist_mean(netlist, columns->generates[i], ROLE_GENERATES, column);
        /* One of the two at least, or exactly one, is all the same beside "both"; the second is
         * there already where nothing is turned over as the operation goes, the first costs nothing
         * where one of the two is known, and beside a 1 it says that every carry passes. */
        bool known = literal_is_constant(x) || literal_is_constant(y);
        columns->passes[i] = literal_is_constant(columns->turned) && !known
                                 ? columns->half[i] ^ columns->turned
                                 : netlist_or(netlist, x, y);
        netlist_mean(netlist, columns->passes[i], ROLE_PASSES, column);
        columns->column[i] = mark_column(netlist, columns, i, x, y);
    }
}

void columns_close(Netlist *netlist, Adder *adder, Columns *columns) {
    assert(columns->width == adder->width);
    for (unsigned i = 0; i <= columns->width; i++)
        netlist_mean(netlist, columns->carry[i], columns->role, (int)i);
    netlist_enter(netlist, PART_SUMS, -1);
    for (unsigned i = 0; i < columns->width; i++) {
        assert(netlist_has(netlist, columns->carry[i + 1]));
        adder->sum[i] = netlist_xor(netlist, columns->half[i], columns->carry[i]);
        netlist_mean(netlist, adder->sum[i], ROLE_SUM, (int)i);
    }
    for (unsigned i = 0; i <= columns->width; i++)
        adder->carry[i] = columns->carry[i];
    adder->turned = columns->turned;
    for (unsigned i = 0; i <= columns->width; i++)
        if (!literal_is_constant(columns->carry[i]))
            netlist->core->giver[i] = columns->giver[i];
    memory_free(columns->generates);
    memory_free(columns->passes);
    memory_free(columns->half);
    memory_free(columns->carry);
    memory_free(columns->column);
    memory_free(columns->giver);
}

void columns_by_groups(Netlist *netlist, Adder *adder, GroupSize *group_size, GroupAdd *add_group) {
    Columns columns;
    columns_open(netlist, adder, &columns);
    for (unsigned group = 0, start = 0, end; start < columns.width; group++, start = end) {
        end = start + group_size(columns.width, group);
        end = end < columns.width ? end : columns.width;
        assert(end > start);
        netlist_enter(netlist, PART_GROUPS, (int)group);
        core_group(netlist->core, end - 1, start, 1);
        add_group(netlist, &columns, start, end);
    }
    columns_close(netlist, adder, &columns);
}

Literal columns_past(Netlist *netlist, Literal generates, Literal passes, Literal carry, Role role,
                     unsigned column) {
    assert(netlist_has(netlist, generates) && netlist_has(netlist, passes));
    Literal through = netlist_and(netlist, passes, carry);
    netlist_mean(netlist, through, role, (int)column);
    return netlist_or(netlist, generates, through);
}
