/* The connections of a network picture and their places. A cell's wire goes straight down in its
 * column; where it is read in other columns it goes there across, in the channel above the row that
 * reads it, on a track that no other net has there. Tracks are given out from the left, the first
 * free one each (the "left-edge" way of channel routing; common practice, no source). Ports and
 * spines have places of their own across the page, so nothing meets but where it should. */
#include "draw/network/network.h"

#include "base/memory.h"

#include <stdlib.h>

/* A part of a track that a connection needs. */
typedef struct {
    uint32_t source;
    int row;
    double one, other;
} Claim;

/* ---- the connections ----------------------------------------------------------------------- */

static void add_edge(Network *network, Edge edge) {
    if (network->edge_count == network->edge_room) {
        network->edge_room = network->edge_room == 0 ? 256 : 2 * network->edge_room;
        network->edge = memory_resize(network->edge, network->edge_room, sizeof network->edge[0]);
    }
    network->edge[network->edge_count++] = edge;
}

int network_column_of(const Network *network, uint32_t cell) {
    return network->netlist.core->cell[cell].top;
}

static int sum_row(const Network *network) {
    return network->row_count + 1;
}

/* The first row that stands for this level or a later one. */
static int row_from(const Network *network, unsigned level) {
    int row = 1;
    while (row <= network->row_count && network->level[row] < level)
        row++;
    return row;
}

/* Where what is left out begins, on the right of it. */
static double gap_right(const Network *network) {
    return network_x(network, (int)network->low_end - 1) - network->lane - NETWORK_DASHES - 6;
}

double network_gap_left(const Network *network) {
    return network_x(network, (int)network->high_start) + network->lane + NETWORK_DASHES + 6;
}

/* Is a cell of the same column between the two rows? */
static bool in_the_way(const Network *network, const bool *taken, int column, int above,
                       int below) {
    for (int row = above + 1; row < below; row++)
        if (taken[(size_t)row * (network->unit->width + 1) + (size_t)(column + 1)])
            return true;
    return false;
}

static bool *find_taken(const Network *network) {
    size_t columns = network->unit->width + 1;
    bool *taken = memory_zeroed((size_t)(network->row_count + 2) * columns, sizeof taken[0]);
    for (uint32_t k = 0; k < network->netlist.core->cell_count; k++)
        if (network->row[k] > 0)
            taken[(size_t)network->row[k] * columns + (size_t)(network_column_of(network, k) + 1)] =
                true;
    return taken;
}

static void connect_cell(Network *network, const bool *taken, uint32_t target) {
    const CoreCell *cell = &network->netlist.core->cell[target];
    const double x = network_x(network, cell->top);
    bool made = false;
    for (int k = 0; k < cell->in_count; k++) {
        const CoreCell *before = &network->netlist.core->cell[cell->in[k]];
        if (!core_cell_is_there(before))
            continue;
        Edge edge = {.source = cell->in[k], .row = network->row[target]};
        edge.comes = network->row[edge.source] == NETWORK_NOWHERE;
        edge.beside = !edge.comes &&
                      in_the_way(network, taken, before->top, network->row[edge.source], edge.row);
        edge.straight = k == 0 && !edge.beside;
        edge.x = x + (k > 0         ? cell->in_count == 2 ? NETWORK_LOW_PORT : NETWORK_PORTS * k
                      : edge.beside ? -NETWORK_LOW_PORT
                                    : 0);
        bool makes = network->on_path[target] && !made && network_varies(before->generates) &&
                     network_level(network, before->generates);
        edge.heavy = makes;
        made = made || makes;
        add_edge(network, edge);
    }
}

/* From a cell that is shown to one that is not. */
static void connect_away(Network *network, uint32_t target) {
    const CoreCell *cell = &network->netlist.core->cell[target];
    for (int k = 0; k < cell->in_count; k++)
        if (network->row[cell->in[k]] != NETWORK_NOWHERE)
            add_edge(network, (Edge){.source = cell->in[k],
                                     .row = row_from(network, cell->level),
                                     .x = gap_right(network),
                                     .goes_on = true});
}

/* The carry into a column, to its sum or, where that is not made, to the flags that compare it. */
static void connect_sum(Network *network, unsigned i) {
    const AdderCore *core = network->netlist.core;
    if (!network_enters(network, i))
        return;
    Edge edge = {.source = core->giver[i],
                 .row = sum_row(network),
                 .taps = core->sum[i] == LITERAL_NONE,
                 .heavy = network->values != NULL && network_level(network, core->carry[i])};
    edge.comes = network->row[edge.source] == NETWORK_NOWHERE;
    edge.goes_on = !network_shows(network, i);
    if (edge.comes && edge.goes_on)
        return;
    edge.x = edge.goes_on ? gap_right(network)
                          : network_x(network, (int)i) + network->lane - 2 * GATE_INPUT;
    add_edge(network, edge);
}

static void connect_last(Network *network) {
    const AdderCore *core = network->netlist.core;
    unsigned width = core->width;
    if (!network_varies(core->carry[width]))
        return;
    add_edge(network, (Edge){.source = core->giver[width],
                             .row = sum_row(network),
                             .x = network_left(network) - NETWORK_LEFT,
                             .leaves = true,
                             .heavy = network->values != NULL &&
                                      network_level(network, core->carry[width])});
}

/* ---- tracks -------------------------------------------------------------------------------- */

double network_spine(const Network *network, const Edge *edge) {
    if (edge->comes)
        return network_gap_left(network);
    double x = network_x(network, network_column_of(network, edge->source));
    return edge->beside ? x - network->lane : x;
}

static int compare_claims(const void *one, const void *other) {
    const Claim *a = one, *b = other;
    if (a->row != b->row)
        return a->row < b->row ? -1 : 1;
    return a->source < b->source ? -1 : a->source > b->source;
}

static uint32_t claim_all(const Network *network, Claim *claim) {
    uint32_t count = 0;
    for (uint32_t k = 0; k < network->edge_count; k++) {
        const Edge *edge = &network->edge[k];
        if (edge->straight)
            continue;
        claim[count++] = (Claim){edge->source, edge->row, network_spine(network, edge), edge->x};
        if (edge->beside)
            claim[count++] = (Claim){edge->source, network->row[edge->source] + 1,
                                     network_x(network, network_column_of(network, edge->source)),
                                     network_spine(network, edge)};
    }
    qsort(claim, count, sizeof claim[0], compare_claims);
    return count;
}

static double least(double one, double other) {
    return one < other ? one : other;
}

static double most(double one, double other) {
    return one > other ? one : other;
}

static void make_trunks(Network *network) {
    Claim *claim = memory_zeroed(2 * (size_t)network->edge_count + 1, sizeof claim[0]);
    uint32_t count = claim_all(network, claim);
    network->trunk = memory_zeroed(count + 1, sizeof network->trunk[0]);
    for (uint32_t k = 0; k < count; k++) {
        if (k == 0 || compare_claims(&claim[k - 1], &claim[k]) != 0)
            network->trunk[network->trunk_count++] = (Trunk){.source = claim[k].source,
                                                             .row = claim[k].row,
                                                             .left = claim[k].one,
                                                             .right = claim[k].one};
        Trunk *trunk = &network->trunk[network->trunk_count - 1];
        trunk->left = least(trunk->left, least(claim[k].one, claim[k].other));
        trunk->right = most(trunk->right, most(claim[k].one, claim[k].other));
    }
    free(claim);
}

const Trunk *network_trunk_of(const Network *network, int row, uint32_t source) {
    uint32_t low = 0, high = network->trunk_count;
    while (low + 1 < high) {
        uint32_t middle = low + (high - low) / 2;
        const Trunk *trunk = &network->trunk[middle];
        bool after = trunk->row > row || (trunk->row == row && trunk->source > source);
        low = after ? low : middle;
        high = after ? middle : high;
    }
    return &network->trunk[low];
}

static int compare_lefts(const void *one, const void *other) {
    const Trunk *const *a = one, *const *b = other;
    if ((*a)->left != (*b)->left)
        return (*a)->left < (*b)->left ? -1 : 1;
    return (*a)->source < (*b)->source ? -1 : (*a)->source > (*b)->source;
}

/* Gives the trunks of a row their tracks; how many. */
static int give_tracks(Trunk *trunk, uint32_t count) {
    Trunk **order = memory_zeroed(count + 1, sizeof order[0]);
    double *end = memory_zeroed(count + 1, sizeof end[0]);
    int used = 0;
    for (uint32_t k = 0; k < count; k++)
        order[k] = &trunk[k];
    qsort(order, count, sizeof order[0], compare_lefts);
    for (uint32_t k = 0; k < count; k++) {
        int track = 0;
        while (track < used && end[track] + 4 > order[k]->left)
            track++;
        used = track == used ? used + 1 : used;
        order[k]->track = track;
        end[track] = order[k]->right;
    }
    free(order);
    free(end);
    return used;
}

static void give_all_tracks(Network *network) {
    network->tracks = memory_zeroed((size_t)network->row_count + 2, sizeof network->tracks[0]);
    for (uint32_t k = 0; k < network->trunk_count;) {
        uint32_t next = k;
        while (next < network->trunk_count && network->trunk[next].row == network->trunk[k].row)
            next++;
        network->tracks[network->trunk[k].row] = give_tracks(&network->trunk[k], next - k);
        k = next;
    }
}

void network_connect(Network *network) {
    const AdderCore *core = network->netlist.core;
    bool *taken = find_taken(network);
    for (uint32_t k = 0; k < core->cell_count; k++) {
        if (network->row[k] > 0)
            connect_cell(network, taken, k);
        else if (network->row[k] == NETWORK_NOWHERE && core_cell_is_there(&core->cell[k]))
            connect_away(network, k);
    }
    for (unsigned i = 0; i < core->width; i++)
        connect_sum(network, i);
    connect_last(network);
    free(taken);
    make_trunks(network);
    give_all_tracks(network);
}

/* ---- rows ---------------------------------------------------------------------------------- */

void network_place_rows(Network *network) {
    size_t rows = (size_t)network->row_count + 2;
    network->top = memory_zeroed(rows, sizeof network->top[0]);
    network->channel = memory_zeroed(rows, sizeof network->channel[0]);
    network->top[0] = network->columns_top;
    double y = network->columns_top + NETWORK_COLUMN;
    for (size_t row = 1; row < rows; row++) {
        network->channel[row] = y + (network->values != NULL ? NETWORK_VALUES : 6);
        network->top[row] = network->channel[row] + NETWORK_TRACK * network->tracks[row] + 4;
        y = network->top[row] + NETWORK_CELL;
    }
    network->tap = network->top[rows - 1] + NETWORK_NAMES;
    network->top[rows - 1] = network->tap + 10;
}

double network_bottom_of(const Network *network, uint32_t cell) {
    int row = network->row[cell];
    return network->top[row] + (row == 0 ? NETWORK_COLUMN : NETWORK_CELL);
}

double network_track_y(const Network *network, const Trunk *trunk) {
    return network->channel[trunk->row] + NETWORK_TRACK * trunk->track;
}
