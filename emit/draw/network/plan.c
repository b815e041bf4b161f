/* The plan of a network picture: which columns and cells are shown, in which rows, and by which
 * cells each carry of 1 comes. */
#include "draw/network/network.h"

#include "base/memory.h"

static bool is_shown(const Network *network, const CoreCell *cell) {
    return core_cell_is_there(cell) &&
           (cell->top < 0 || frame_shows(&network->frame, (unsigned)cell->top));
}

/* A row for each level that has a cell to show. */
static void choose_rows(Network *network) {
    const AdderCore *core = network->frame.core;
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
    memory_free(row_of);
}

/* Which of a cell's inputs its carry of 1 is from: the first that makes one; those before it let it
 * through. */
static int maker(const Network *network, const CoreCell *cell) {
    for (int k = 0; k < cell->in_count; k++) {
        Literal made = network->frame.core->cell[cell->in[k]].generates;
        if (made != LITERAL_NONE && frame_level(&network->frame, made))
            return k;
    }
    return NETWORK_NOWHERE;
}

/* Backwards from the carries that are 1. */
static void find_path(Network *network) {
    const AdderCore *core = network->frame.core;
    network->on_path = memory_zeroed(core->cell_count + 1, sizeof network->on_path[0]);
    if (network->frame.values == NULL)
        return;
    for (unsigned i = 0; i <= core->width; i++)
        if (core->giver[i] != CORE_NO_CELL && core->carry[i] != LITERAL_NONE &&
            frame_level(&network->frame, core->carry[i]))
            network->on_path[core->giver[i]] = true;
    for (uint32_t k = core->cell_count; k-- > 0;) {
        const CoreCell *cell = &core->cell[k];
        int in = network->on_path[k] ? maker(network, cell) : NETWORK_NOWHERE;
        if (in != NETWORK_NOWHERE)
            network->on_path[cell->in[in]] = true;
    }
}

void network_plan(Network *network) {
    choose_rows(network);
    find_path(network);
}
