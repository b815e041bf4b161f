/* See build.h. */
#include "gates/build.h"

#include "base/memory.h"
#include "gates/flags.h"
#include "gates/operands.h"
#include "gates/structure.h"

#include <stdlib.h>

/* All gates, into an empty netlist. */
static void build_all(const Unit *unit, Build *build) {
    Operands *operands = &build->operands;
    operands_build(unit, &build->netlist, operands);
    build->adder = (Adder){.width = unit->width,
                           .depth = unit->depth,
                           .x = operands->x,
                           .y = operands->y,
                           .first = operands->first,
                           .a = operands->a,
                           .b = operands->b,
                           .turn_a = operands->signal[SIGNAL_TURN_A],
                           .turn_b = operands->signal[SIGNAL_TURN_B],
                           .chain = operands->chain,
                           .subtracting = operands->signal[SIGNAL_SUBTRACTING],
                           .carry_leaves = unit->sense == SENSE_NO_BORROW && unit->flag[FLAG_CARRY],
                           .overflow_read = flags_read_overflow(unit),
                           .turned = LITERAL_0,
                           .leaving = LITERAL_NONE,
                           .overflow = LITERAL_NONE,
                           .sum = memory_zeroed(unit->width, sizeof(Literal)),
                           .carry = memory_zeroed(unit->width + 1, sizeof(Literal))};
    structure_build(unit->structure, &build->netlist, &build->adder);
    flags_build(unit, &build->netlist, operands, &build->adder);
}

static void close_but_netlist(Build *build) {
    free(build->adder.sum);
    free(build->adder.carry);
    operands_free(&build->operands);
}

void build_open(const Unit *unit, Build *build) {
    netlist_init(&build->netlist);
    build_all(unit, build);
}

void build_close(Build *build) {
    close_but_netlist(build);
    netlist_free(&build->netlist);
}

static void finish(const Unit *unit, Build *build, Netlist *netlist) {
    build_all(unit, build);
    close_but_netlist(build);
    netlist_finish(&build->netlist);
    *netlist = build->netlist;
}

void build_netlist(const Unit *unit, Netlist *netlist) {
    Build build;
    netlist_init(&build.netlist);
    finish(unit, &build, netlist);
}

void build_netlist_marked(const Unit *unit, Netlist *netlist, Landmarks *landmarks) {
    Build build;
    netlist_init(&build.netlist);
    landmarks_init(landmarks, unit->width);
    build.netlist.landmarks = landmarks;
    finish(unit, &build, netlist);
    netlist->landmarks = NULL;
}
