/* Carry skip: in groups of columns the carry ripples, and past each group it skips in two gates:
 * the group makes a carry of its own, or lets the one before it through. The group's own carry
 * starts from 0 beside the rippling one, which spares the multiplexer of the textbook and the
 * faults in it that nothing could show. Groups of about the root of half the width. M. Lehman, N.
 * Burla, "Skip techniques for high-speed carry-propagation in binary arithmetic units", IRE
 * Transactions on Electronic Computers, 1961 (from memory). */
#include "gates/structures/columns.h"

#include <assert.h>

static unsigned size_of_group(unsigned width, unsigned group) {
    (void)group; /* all alike */
    unsigned size = 2;
    while (2 * size * size < width)
        size++;
    return size;
}

/* What the columns of a group make and let through together. */
typedef struct {
    Literal made;
    Literal let_through;
    uint32_t mark; /* its cell in the record */
} Span;

/* The carry into column i + 1 of a group, which ripples. */
static void ripple(Netlist *netlist, Columns *columns, unsigned i, unsigned start) {
    assert(start <= i && i + 1 < columns->width);
    Literal carry = columns_past(netlist, columns->generates[i], columns->passes[i],
                                 columns->carry[i], ROLE_HANDED_ON, i + 1);
    netlist_mean(netlist, carry, columns->role, (int)i + 1);
    CoreCell mark = core_cell_of(CORE_CARRY, i, start, carry, LITERAL_NONE);
    columns->carry[i + 1] = carry;
    columns->giver[i + 1] =
        core_cell_of_two(netlist->core, mark, columns->column[i], columns->giver[i]);
}

/* Column i joins those below it. In the first group, if nothing enters it, what they make is the
 * carry that ripples. */
static void widen(Netlist *netlist, const Columns *columns, unsigned i, unsigned start,
                  Span *span) {
    Literal more = columns->generates[i], on = columns->passes[i];
    bool none_enters = columns->carry[start] == LITERAL_0;
    span->made = columns_past(netlist, more, on, none_enters ? columns->carry[i] : span->made,
                              ROLE_HANDED_UP, i + 1);
    netlist_mean_span(netlist, span->made, ROLE_GENERATES, (int)i, (int)start);
    span->let_through = netlist_and(netlist, span->let_through, on);
    netlist_mean_span(netlist, span->let_through, ROLE_PASSES, (int)i, (int)start);
    CoreCell mark = core_cell_of(none_enters ? CORE_CARRY : CORE_JOIN, i, start, span->made,
                                 none_enters ? LITERAL_NONE : span->let_through);
    span->mark = core_cell_of_two(netlist->core, mark, columns->column[i],
                                  none_enters ? columns->giver[i] : span->mark);
}

/* Columns start ... end - 1, whose first carry is known. */
static void add_group(Netlist *netlist, Columns *columns, unsigned start, unsigned end) {
    Span span = {columns->generates[start], columns->passes[start], columns->column[start]};
    for (unsigned i = start; i + 1 < end; i++) {
        ripple(netlist, columns, i, start);
        widen(netlist, columns, i + 1, start, &span);
    }
    columns->carry[end] =
        columns_past(netlist, span.made, span.let_through, columns->carry[start], ROLE_SKIPS, end);
    CoreCell mark = core_cell_of(end - start > 1 ? CORE_SKIP : CORE_CARRY, end - 1, start,
                                 columns->carry[end], LITERAL_NONE);
    columns->giver[end] = core_cell_of_two(netlist->core, mark, span.mark, columns->giver[start]);
}

static void build(Netlist *netlist, Adder *adder) {
    columns_by_groups(netlist, adder, size_of_group, add_group);
}

const StructureMaker skip_structure = {.build = build};
