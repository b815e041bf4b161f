/* See build.h. */
#include "gates/build.h"

#include "base/memory.h"
#include "gates/flags.h"
#include "gates/mapping/map.h"
#include "gates/netlist/cost.h"
#include "gates/operands.h"
#include "gates/structures/structure.h"

#include <assert.h>
#include <string.h>

/* What the operand row and the structure have handed on, in the record. */
static void record_core(const Build *build, AdderCore *core) {
    assert(core->width == build->adder.width);
    const Operands *operands = &build->operands;
    const Adder *adder = &build->adder;
    memcpy(core->signal, operands->signal, sizeof core->signal);
    core->first = operands->first;
    core_set_sense(core, adder->turned, adder->subtracting);
    for (unsigned i = 0; i < adder->width; i++) {
        core->added_x[i] = adder->x[i];
        core->added_y[i] = adder->y[i];
        core->sum[i] = adder->sum[i];
        core->carry[i] = adder->carry[i];
    }
    bool beside = adder->leaving != LITERAL_NONE; /* then no chain leaves */
    Literal last = adder->carry[adder->width];
    core->carry[adder->width] = beside ? LITERAL_NONE : last;
    core->leaving = beside                               ? adder->leaving
                    : literal_is_constant(adder->turned) ? last ^ adder->turned
                                                         : LITERAL_NONE;
}

/* All gates, of any kind, into an empty netlist. */
static void build_all(const Unit *unit, Form form, Build *build) {
    assert(unit->width > 0 && unit->width <= UNIT_WIDTH_MAX);
    assert(form < FORM_COUNT);
    Operands *operands = &build->operands;
    operands_build(unit, &build->netlist, operands);
    build->adder = (Adder){.width = unit->width,
                           .depth = unit->depth,
                           .form = form,
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
    build->netlist.core = core_new(unit->width);
    structure_build(unit->structure, &build->netlist, &build->adder);
    record_core(build, build->netlist.core);
    flags_build(unit, &build->netlist, operands, &build->adder);
}

static void close_but_netlist(Build *build) {
    memory_free(build->adder.sum);
    memory_free(build->adder.carry);
    operands_free(&build->operands);
}

void build_open(const Unit *unit, Build *build) {
    netlist_init(&build->netlist);
    build_all(unit, FORM_ANY_KIND, build);
}

void build_close(Build *build) {
    close_but_netlist(build);
    netlist_free(&build->netlist);
}

static void build_form(const Unit *unit, Form form, Netlist *netlist) {
    Build build;
    netlist_init(&build.netlist);
    build_all(unit, form, &build);
    close_but_netlist(&build);
    netlist_finish(&build.netlist);
    *netlist = build.netlist;
}

void build_of_any_kind(const Unit *unit, Netlist *netlist) {
    build_form(unit, FORM_ANY_KIND, netlist);
}

/* Of these the one with the fewer gates, or else levels, stays in best. */
static void keep_smaller(Netlist *best, Netlist *other) {
    assert(best->output_count == other->output_count);
    Cost kept = cost_count(best), tried = cost_count(other);
    Netlist worse = *other;
    if (tried.gates < kept.gates || (tried.gates == kept.gates && tried.levels < kept.levels)) {
        worse = *best;
        *best = *other;
    }
    netlist_free(&worse);
}

void build_of_kind(const Unit *unit, NodeKind kind, Netlist *netlist) {
    assert(kind == NODE_NAND || kind == NODE_NOR);
    bool several = unit->structure == STRUCTURE_FEWEST;
    for (int form = 0; form < (several ? FORM_COUNT : 1); form++) {
        Netlist any, mapped;
        build_form(unit, (Form)form, &any);
        map_netlist(&any, kind, &mapped);
        netlist_free(&any);
        if (form == 0)
            *netlist = mapped;
        else
            keep_smaller(netlist, &mapped);
    }
}

void build_netlist(const Unit *unit, Netlist *netlist) {
    if (unit->detail == DETAIL_NAND || unit->detail == DETAIL_NOR)
        build_of_kind(unit, unit->detail == DETAIL_NAND ? NODE_NAND : NODE_NOR, netlist);
    else
        build_of_any_kind(unit, netlist);
}
