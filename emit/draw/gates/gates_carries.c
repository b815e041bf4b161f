/* Which gates of a finished netlist are the carries from column to column. Their names tell which
 * carry, but not whether netlist_finish has turned the gate over for the sake of an output; so the
 * gates are compared with the carries that the structure handed on, over 64 drawn inputs. */
#include "draw/gates/gates.h"

#include "base/memory.h"
#include "gates/build.h"

#include <stdlib.h>
#include <string.h>

/* Levels of all nodes, 64 at once, the inputs drawn (xorshift of Marsaglia 2003, from memory). Both
 * netlists have the same inputs in the same places. */
static uint64_t *draw_levels(const Netlist *netlist) {
    uint64_t *values = memory_zeroed(netlist->node_count, sizeof values[0]);
    uint64_t drawn = UINT64_C(0x9e3779b97f4a7c15);
    for (uint32_t k = 1; k < netlist->node_count && netlist->nodes[k].kind == NODE_INPUT; k++) {
        drawn ^= drawn << 13;
        drawn ^= drawn >> 7;
        drawn ^= drawn << 17;
        values[k] = drawn;
    }
    netlist_evaluate(netlist, values);
    return values;
}

static bool has_chain(const Netlist *netlist) {
    for (uint32_t k = 1; k < netlist->node_count; k++)
        if (values_is_carry(&netlist->nodes[k]) && values_carry_letter(&netlist->nodes[k]) == 'k')
            return true;
    return false;
}

/* What the carry of a name is: the structure's own, but beside a chain that of the addition. */
static uint64_t expected(const Build *build, const uint64_t *values, const Node *node,
                         bool beside) {
    const Adder *adder = &build->adder;
    Literal carry = adder->carry[node->index];
    if (!beside)
        return netlist_value(values, carry);
    if (node->index == (int)adder->width && adder->leaving != LITERAL_NONE)
        return netlist_value(values, adder->leaving);
    return netlist_value(values, carry) ^ netlist_value(values, adder->turned);
}

/* The carry into the sign column of a single column is no gate but a pin. */
static void find_first(const Build *build, const uint64_t *handed, const Netlist *netlist,
                       const uint64_t *found, CarryKind *carry) {
    uint64_t level = netlist_value(handed, build->adder.carry[0]);
    for (uint32_t k = 1; k < netlist->node_count && netlist->nodes[k].kind == NODE_INPUT; k++)
        carry[k] = found[k] == level    ? CARRY_PLAIN
                   : found[k] == ~level ? CARRY_TURNED_OVER
                                        : CARRY_NONE;
}

CarryKind *gates_carries(const Unit *unit, const Netlist *netlist, CarrySense *sense) {
    CarryKind *carry = memory_zeroed(netlist->node_count, sizeof carry[0]);
    Build build;
    build_open(unit, &build);
    uint64_t *handed = draw_levels(&build.netlist), *found = draw_levels(netlist);
    bool chain = has_chain(netlist);
    *sense = build.adder.turned == LITERAL_1            ? SENSE_OF_BORROWS
             : build.adder.turned == LITERAL_0 || chain ? SENSE_OF_CARRIES
                                                        : SENSE_OF_EITHER;
    for (uint32_t k = 1; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (!values_is_carry(node) || node->index > (int)unit->width)
            continue;
        bool beside = chain && values_carry_letter(node) != 'k';
        uint64_t level = expected(&build, handed, node, beside);
        carry[k] = found[k] == level    ? CARRY_PLAIN
                   : found[k] == ~level ? CARRY_TURNED_OVER
                                        : CARRY_NONE;
    }
    if (unit->width == 1)
        find_first(&build, handed, netlist, found, carry);
    free(handed);
    free(found);
    build_close(&build);
    return carry;
}
