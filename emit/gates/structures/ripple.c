/* The ripple carry adder: a full adder a column, each waiting for the carry of the one before it.
 * Five gates a column (two XOR for the sum; carry = both, or one and the carry), two where no carry
 * enters. Common practice, no source. */
#include "gates/structures/structure.h"

#include <assert.h>

/* The carry out of a column whose propagate and carry in are given. */
static Literal carry_out(Netlist *netlist, Literal x, Literal y, Literal propagate, Literal carry,
                         int column) {
    /* With a constant operand or carry, "one and the carry, or both" falls to one gate. */
    if (carry == LITERAL_1 || y == LITERAL_1)
        return netlist_or(netlist, x, carry == LITERAL_1 ? y : carry);
    Literal generated = netlist_and(netlist, x, y);
    netlist_mean(netlist, generated, ROLE_GENERATED, column);
    Literal passed = netlist_and(netlist, propagate, carry);
    netlist_mean(netlist, passed, ROLE_PASSED, column);
    return netlist_or(netlist, generated, passed);
}

static void build(Netlist *netlist, Adder *adder) {
    adder->carry[0] = adder->first;
    ripple_from(netlist, adder, 0);
}

void ripple_from(Netlist *netlist, Adder *adder, unsigned from) {
    assert(from <= adder->width && netlist_has(netlist, adder->carry[from]));
    for (unsigned i = from; i < adder->width; i++) {
        int column = (int)i;
        Literal x = adder->x[i], y = adder->y[i], carry = adder->carry[i];
        netlist_enter(netlist, PART_COLUMNS, column);
        Literal propagate = netlist_xor(netlist, x, y);
        adder->sum[i] = netlist_xor(netlist, propagate, carry);
        netlist_mean(netlist, adder->sum[i], ROLE_SUM, column);
        netlist_mean(netlist, propagate, ROLE_PROPAGATE, column);
        netlist->core->x[i] = x;
        netlist->core->y[i] = y;
        netlist->core->half[i] = propagate;
        adder->carry[i + 1] = carry_out(netlist, x, y, propagate, carry, column);
        netlist_mean(netlist, adder->carry[i + 1], ROLE_CARRY, column + 1);
    }
}

const StructureMaker ripple_structure = {.build = build};
