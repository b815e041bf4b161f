/* The plan of a network picture: which columns and cells are shown, in which rows, and by which
 * cells each carry of 1 comes. */
#include "draw/network/network.h"

#include "base/memory.h"

#include <stdlib.h>

bool network_shows(const Network *network, unsigned column) {
    return column < network->low_end || column >= network->high_start;
}

static bool is_shown(const Network *network, const CoreCell *cell) {
    return core_cell_is_there(cell) &&
           (cell->top < 0 || network_shows(network, (unsigned)cell->top));
}

static void choose_columns(Network *network) {
    unsigned width = network->unit->width;
    bool all = width <= DRAW_COLUMNS_MAX;
    network->low_end = all ? width : NETWORK_SHOWN;
    network->high_start = all ? width : width - NETWORK_SHOWN;
}

/* A row for each level that has a cell to show. */
static void choose_rows(Network *network) {
    const AdderCore *core = network->netlist.core;
    unsigned deepest = 0;
    for (uint32_t k = 0; k < core->cell_count; k++)
        deepest = core->cell[k].level > deepest ? core->cell[k].level : deepest;
    int *row_of = memory_zeroed(deepest + 1, sizeof row_of[0]);
    network->row = memory_zeroed(core->cell_count + 1, sizeof network->row[0]);
    for (uint32_t k = 0; k < core->cell_count; k++)
        if (is_shown(network, &core->cell[k]))
            row_of[core->cell[k].level] = 1;
    network->level = memory_zeroed(deepest + 3, sizeof network->level[0]);
    row_of[0] = 0;
    for (unsigned level = 1; level <= deepest; level++) {
        if (row_of[level] == 0)
            continue;
        row_of[level] = ++network->row_count;
        network->level[network->row_count] = level;
    }
    for (uint32_t k = 0; k < core->cell_count; k++)
        network->row[k] =
            is_shown(network, &core->cell[k]) ? row_of[core->cell[k].level] : NETWORK_NOWHERE;
    free(row_of);
}

/* Cells of two inputs are narrow. */
static void choose_sizes(Network *network) {
    int inputs = 2;
    for (uint32_t k = 0; k < network->netlist.core->cell_count; k++)
        if (network->netlist.core->cell[k].in_count > inputs)
            inputs = network->netlist.core->cell[k].in_count;
    network->half_cell = inputs == 2 ? 15 : 21;
    network->lane = network->half_cell + 5;
    network->pitch = 2 * network->half_cell + 20;
    if (network->unit->width > DRAW_COLUMNS_MAX)
        network->pitch += 14; /* longer numbers */
}

/* Which of a cell's inputs its carry of 1 is from: the first that makes one; those before it let it
 * through. */
static int maker(const Network *network, const CoreCell *cell) {
    for (int k = 0; k < cell->in_count; k++) {
        Literal made = network->netlist.core->cell[cell->in[k]].generates;
        if (made != LITERAL_NONE && network_level(network, made))
            return k;
    }
    return NETWORK_NOWHERE;
}

/* Backwards from the carries that are 1. */
static void find_path(Network *network) {
    const AdderCore *core = network->netlist.core;
    network->on_path = memory_zeroed(core->cell_count + 1, sizeof network->on_path[0]);
    if (network->values == NULL)
        return;
    for (unsigned i = 0; i <= core->width; i++)
        if (core->giver[i] != CORE_NO_CELL && core->carry[i] != LITERAL_NONE &&
            network_level(network, core->carry[i]))
            network->on_path[core->giver[i]] = true;
    for (uint32_t k = core->cell_count; k-- > 0;) {
        const CoreCell *cell = &core->cell[k];
        int in = network->on_path[k] ? maker(network, cell) : NETWORK_NOWHERE;
        if (in != NETWORK_NOWHERE)
            network->on_path[cell->in[in]] = true;
    }
}

void network_plan(Network *network) {
    choose_columns(network);
    choose_rows(network);
    choose_sizes(network);
    find_path(network);
}
