/* See build.h. */
#include "gates/build.h"

#include "base/memory.h"
#include "gates/flags.h"
#include "gates/operands.h"
#include "gates/structure.h"

#include <stdlib.h>

static void build(const Unit *unit, Netlist *netlist) {
    Operands operands;
    operands_build(unit, netlist, &operands);
    Adder adder = {.width = unit->width,
                   .depth = unit->depth,
                   .x = operands.x,
                   .y = operands.y,
                   .first = operands.first,
                   .a = operands.a,
                   .b = operands.b,
                   .turn_a = operands.signal[SIGNAL_TURN_A],
                   .turn_b = operands.signal[SIGNAL_TURN_B],
                   .chain = operands.chain,
                   .subtracting = operands.signal[SIGNAL_SUBTRACTING],
                   .carry_leaves = unit->sense == SENSE_NO_BORROW && unit->flag[FLAG_CARRY],
                   .overflow_read = flags_read_overflow(unit),
                   .turned = LITERAL_0,
                   .leaving = LITERAL_NONE,
                   .overflow = LITERAL_NONE,
                   .sum = memory_zeroed(unit->width, sizeof(Literal)),
                   .carry = memory_zeroed(unit->width + 1, sizeof(Literal))};
    structure_build(unit->structure, netlist, &adder);
    flags_build(unit, netlist, &operands, &adder);
    free(adder.sum);
    free(adder.carry);
    operands_free(&operands);
    netlist_finish(netlist);
}

void build_netlist(const Unit *unit, Netlist *netlist) {
    netlist_init(netlist);
    build(unit, netlist);
}

void build_netlist_marked(const Unit *unit, Netlist *netlist, Landmarks *landmarks) {
    netlist_init(netlist);
    landmarks_init(landmarks, unit->width);
    netlist->landmarks = landmarks;
    build(unit, netlist);
    netlist->landmarks = NULL;
}
