/* See steps.h. */
#include "lesson/steps.h"

#include "base/memory.h"

#include <assert.h>

#define NO_STEP UINT32_MAX

/* ---- how many there are -------------------------------------------------------------------- */

static bool in_core(const Node *node) {
    return node->part == PART_LEVELS || node->part == PART_GROUPS;
}

/* A level or group of a network has the number that its gates were made with; the least is the first
 * step after the columns'. */
static void count_core(const Netlist *netlist, bool is_chain, Steps *steps) {
    unsigned least = UINT32_MAX, most = 0;
    steps->kind = is_chain ? STEPS_COLUMNS : STEPS_LEVELS;
    for (uint32_t k = 0; k < netlist->node_count && !is_chain; k++) {
        const Node *node = &netlist->nodes[k];
        if (!netlist_is_gate(node) || !in_core(node))
            continue;
        if (node->part == PART_GROUPS)
            steps->kind = STEPS_GROUPS;
        least = (unsigned)node->column < least ? (unsigned)node->column : least;
        most = (unsigned)node->column > most ? (unsigned)node->column : most;
    }
    steps->least = least;
    steps->core = is_chain ? netlist->core->width : least > most ? 1 : most - least + 2;
}

static void number_steps(const Unit *unit, bool is_chain, Steps *steps) {
    unsigned next = STEP_CORE + steps->core;
    steps->sums = is_chain ? NO_STEP : next++;
    steps->compare = next++;
    steps->result = next++;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        steps->flag[flag] = unit->flag[flag] ? next++ : NO_STEP;
    steps->count = next;
}

/* ---- when each wire has its level ----------------------------------------------------------- */

static unsigned step_of_part(const Steps *steps, const Node *node) {
    if (!netlist_is_gate(node))
        return STEP_PINS;
    switch (node->part) {
    case PART_CONTROL:
    case PART_OPERANDS:
        return STEP_OPERANDS;
    case PART_COLUMNS:
        return STEP_CORE + (steps->kind == STEPS_COLUMNS ? (unsigned)node->column : 0);
    case PART_LEVELS:
    case PART_GROUPS:
        return STEP_CORE + 1 + (unsigned)node->column - steps->least;
    case PART_SUMS:
        return steps->sums == NO_STEP ? steps->compare - 1 : steps->sums;
    case PART_FLAGS:
        break;
    }
    return NO_STEP;
}

/* Gates that have no step yet and that the literal depends on have this one. */
static void give(const Netlist *netlist, Steps *steps, Literal literal, unsigned step) {
    if (literal == LITERAL_NONE)
        return;
    bool *needed = memory_zeroed(netlist->node_count, sizeof needed[0]);
    needed[literal_node(literal)] = true;
    for (uint32_t k = netlist->node_count; k-- > 0;) {
        const Node *node = &netlist->nodes[k];
        if (!needed[k] || steps->node[k] != NO_STEP)
            continue;
        steps->node[k] = step;
        needed[literal_node(node->in[0])] = needed[literal_node(node->in[1])] = true;
    }
    memory_free(needed);
}

/* No gate has its level before what it reads. */
static void put_in_order(const Netlist *netlist, Steps *steps) {
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (steps->node[k] == NO_STEP)
            steps->node[k] = steps->count - 1;
        for (int i = 0; i < 2 && netlist_is_gate(node); i++)
            if (steps->node[literal_node(node->in[i])] > steps->node[k])
                steps->node[k] = steps->node[literal_node(node->in[i])];
    }
}

static void time_nodes(const Netlist *netlist, Steps *steps) {
    const AdderCore *core = netlist->core;
    for (uint32_t k = 0; k < netlist->node_count; k++)
        steps->node[k] = step_of_part(steps, &netlist->nodes[k]);
    give(netlist, steps, core->overflow, steps->compare);
    for (unsigned i = 0; i < core->width; i++)
        give(netlist, steps, core->result[i], steps->result);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (steps->flag[flag] != NO_STEP)
            give(netlist, steps, core->flag[flag].masked, steps->flag[flag]);
    put_in_order(netlist, steps);
}

/* ---- the columns ----------------------------------------------------------------------------- */

static unsigned step_of(const Steps *steps, Literal literal, unsigned least, unsigned most) {
    unsigned step = literal == LITERAL_NONE ? most : steps->node[literal_node(literal)];
    return step < least ? least : step > most ? most : step;
}

static void time_columns(const AdderCore *core, Steps *steps) {
    unsigned last = steps->compare - 1;
    for (unsigned i = 0; i <= core->width; i++)
        steps->carry[i] = steps->kind == STEPS_COLUMNS
                              ? STEP_FIRST + i
                              : step_of(steps, core->carry[i], STEP_FIRST, last);
    for (unsigned i = 0; i < core->width; i++)
        steps->sum[i] = steps->kind == STEPS_COLUMNS ? STEP_CORE + i : last;
}

void steps_find(const Unit *unit, const Netlist *netlist, bool is_chain, Steps *steps) {
    assert(netlist->core != NULL);
    unsigned width = netlist->core->width;
    count_core(netlist, is_chain, steps);
    number_steps(unit, is_chain, steps);
    steps->node = memory_zeroed(netlist->node_count, sizeof steps->node[0]);
    steps->carry = memory_zeroed(width + 1, sizeof steps->carry[0]);
    steps->sum = memory_zeroed(width, sizeof steps->sum[0]);
    time_nodes(netlist, steps);
    time_columns(netlist->core, steps);
}

void steps_free(Steps *steps) {
    memory_free(steps->node);
    memory_free(steps->carry);
    memory_free(steps->sum);
}
