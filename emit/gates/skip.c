/* Carry skip: in groups of columns the carry ripples, and past each group it skips in two gates:
 * the group makes a carry of its own, or lets the one before it through. The group's own carry
 * starts from 0 beside the rippling one, which spares the multiplexer of the textbook and the
 * faults in it that nothing could show. Groups of about the root of half the width. M. Lehman, N.
 * Burla, "Skip techniques for high-speed carry-propagation in binary arithmetic units", IRE
 * Transactions on Electronic Computers, 1961 (from memory). */
#include "gates/columns.h"

static unsigned group_size(unsigned width) {
    unsigned size = 2;
    while (2 * size * size < width)
        size++;
    return size;
}

/* Columns start ... end - 1, whose first carry is known. */
static void add_group(Netlist *netlist, Columns *columns, unsigned start, unsigned end) {
    Literal entering = columns->carry[start];
    Literal made = columns->generates[start], let_through = columns->passes[start];
    for (unsigned i = start; i + 1 < end; i++) {
        Literal more = columns->generates[i + 1], on = columns->passes[i + 1];
        columns->carry[i + 1] = columns_past(netlist, columns->generates[i], columns->passes[i],
                                             columns->carry[i], "handed_on", i + 1);
        netlist_name(netlist, columns->carry[i + 1], columns->stem, (int)i + 1);
        made = entering == LITERAL_0
                   ? columns_past(netlist, more, on, columns->carry[i + 1], "handed_up", i + 2)
                   : columns_past(netlist, more, on, made, "handed_up", i + 2);
        netlist_name_span(netlist, made, "generates", (int)i + 1, (int)start);
        let_through = netlist_and(netlist, let_through, on);
        netlist_name_span(netlist, let_through, "passes", (int)i + 1, (int)start);
    }
    columns->carry[end] = columns_past(netlist, made, let_through, entering, "skips", end);
}

void skip_build(Netlist *netlist, Adder *adder) {
    Columns columns;
    columns_open(netlist, adder, &columns);
    unsigned size = group_size(columns.width);
    for (unsigned start = 0; start < columns.width; start += size) {
        netlist_enter(netlist, PART_GROUPS, (int)(start / size));
        add_group(netlist, &columns, start,
                  start + size < columns.width ? start + size : columns.width);
    }
    columns_close(netlist, adder, &columns);
}
