/* Carry select: each group of columns works out its carries twice, as if none entered it and as if
 * one did, and the carry that does enter selects. Since a carry never takes another away, "with"
 * includes "without", and a selection is an AND and an OR; the carries are selected rather than the
 * sums, which is the same and smaller. Groups of 2, 3, 4 ... columns, so that each is done when its
 * carry comes.
 * O. J. Bedrij, "Carry-select adder", IRE Transactions on Electronic Computers, 1962 (from memory).
 */
#include "gates/structures/columns.h"

#include <assert.h>

static unsigned size_of_group(unsigned width, unsigned group) {
    (void)width;
    return group + 2;
}

/* Columns start ... end - 1 where the carry that enters them is known beforehand. */
static void add_first_group(Netlist *netlist, Columns *columns, unsigned start, unsigned end) {
    for (unsigned i = start; i < end; i++) {
        columns->carry[i + 1] = columns_past(netlist, columns->generates[i], columns->passes[i],
                                             columns->carry[i], ROLE_ON_WITHOUT, i + 1);
        CoreCell carry = core_cell_of(CORE_CARRY, i, start, columns->carry[i + 1], LITERAL_NONE);
        columns->giver[i + 1] =
            core_cell_of_two(netlist->core, carry, columns->column[i], columns->giver[i]);
    }
}

/* Columns start ... end - 1, whose first carry comes late. */
static void add_later_group(Netlist *netlist, Columns *columns, unsigned start, unsigned end) {
    assert(start < end && end <= columns->width);
    Literal entering = columns->carry[start], without = LITERAL_0, with = LITERAL_1;
    uint32_t pair = CORE_NO_CELL;
    for (unsigned i = start; i < end; i++) {
        without = columns_past(netlist, columns->generates[i], columns->passes[i], without,
                               ROLE_ON_WITHOUT, i + 1);
        netlist_mean(netlist, without, ROLE_CARRY_WITHOUT, (int)i + 1);
        with = columns_past(netlist, columns->generates[i], columns->passes[i], with, ROLE_ON_WITH,
                            i + 1);
        netlist_mean(netlist, with, ROLE_CARRY_WITH, (int)i + 1);
        pair = core_cell_of_two(netlist->core, core_cell_of(CORE_PAIR, i, start, without, with),
                                columns->column[i], pair);
        columns->carry[i + 1] =
            columns_past(netlist, without, with, entering, ROLE_SELECTED, i + 1);
        netlist_mean(netlist, columns->carry[i + 1], columns->role, (int)i + 1);
        CoreCell select = core_cell_of(CORE_SELECT, i, start, columns->carry[i + 1], LITERAL_NONE);
        columns->giver[i + 1] =
            core_cell_of_two(netlist->core, select, pair, columns->giver[start]);
    }
}

static void add_group(Netlist *netlist, Columns *columns, unsigned start, unsigned end) {
    if (literal_is_constant(columns->carry[start]))
        add_first_group(netlist, columns, start, end);
    else
        add_later_group(netlist, columns, start, end);
}

static void build(Netlist *netlist, Adder *adder) {
    columns_by_groups(netlist, adder, size_of_group, add_group);
}

const StructureMaker select_structure = {.build = build};
