/* The connections of a network picture and their places. A cell's wire goes straight down in its
 * column; where it is read in other columns it goes there across, in the channel above the row that
 * reads it, on a track that no other net has there. Ports and spines have places of their own across the page, so nothing meets but where it should. */
#include "draw/network/network.h"

#include "base/memory.h"

enum {
    LOW_PORT = 9, /* from a cell's middle to where its second input enters */
    PORTS = 4,    /* from port to port where there are more */
};

/* ---- the connections ----------------------------------------------------------------------- */

static void add_edge(Network *network, Edge edge) {
    network->edge = memory_grow(network->edge, &network->edge_room, network->edge_count + 1,
                                sizeof network->edge[0]);
    network->edge[network->edge_count++] = edge;
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
    return network_x(network, (int)network->frame.gap_low - 1) - network->lane - NETWORK_DASHES - 6;
}

double network_gap_left(const Network *network) {
    return network_x(network, (int)network->frame.gap_high) + network->lane + NETWORK_DASHES + 6;
}

/* Is a cell of the same column between the two rows? */
static bool in_the_way(const Network *network, const bool *taken, int column, int above,
                       int below) {
    for (int row = above + 1; row < below; row++)
        if (taken[(size_t)row * (network->frame.unit->width + 1) + (size_t)(column + 1)])
            return true;
    return false;
}

static bool *find_taken(const Network *network) {
    size_t columns = network->frame.unit->width + 1;
    bool *taken = memory_zeroed((size_t)(network->row_count + 2) * columns, sizeof taken[0]);
    for (uint32_t k = 0; k < network->frame.core->cell_count; k++)
        if (network->row[k] > 0)
            taken[(size_t)network->row[k] * columns + (size_t)(network_cell(network, k)->top + 1)] =
                true;
    return taken;
}

static void connect_cell(Network *network, const bool *taken, uint32_t target) {
    const CoreCell *cell = &network->frame.core->cell[target];
    const double x = network_x(network, cell->top);
    bool made = false;
    for (int k = 0; k < cell->in_count; k++) {
        const CoreCell *before = &network->frame.core->cell[cell->in[k]];
        if (!core_cell_is_there(before))
            continue;
        Edge edge = {.source = cell->in[k], .row = network->row[target]};
        edge.comes = network->row[edge.source] == NETWORK_NOWHERE;
        edge.beside = !edge.comes &&
                      in_the_way(network, taken, before->top, network->row[edge.source], edge.row);
        edge.straight = k == 0 && !edge.beside;
        edge.x = x + (k > 0         ? cell->in_count == 2 ? LOW_PORT : PORTS * k
                      : edge.beside ? -LOW_PORT
                                    : 0);
        bool makes = network->on_path[target] && !made && frame_varies(before->generates) &&
                     frame_level(&network->frame, before->generates);
        edge.heavy = makes;
        made = made || makes;
        add_edge(network, edge);
    }
}

/* From a cell that is shown to one that is not. */
static void connect_away(Network *network, uint32_t target) {
    const CoreCell *cell = &network->frame.core->cell[target];
    for (int k = 0; k < cell->in_count; k++)
        if (network->row[cell->in[k]] != NETWORK_NOWHERE)
            add_edge(network, (Edge){.source = cell->in[k],
                                     .row = row_from(network, cell->level),
                                     .x = gap_right(network),
                                     .goes_on = true});
}

/* The carry into a column, to its sum or, where that is not made, to the flags that compare it. */
static void connect_sum(Network *network, unsigned i) {
    const AdderCore *core = network->frame.core;
    if (!network->frame.drawn[i])
        return;
    Edge edge = {.source = core->giver[i],
                 .row = sum_row(network),
                 .taps = core->sum[i] == LITERAL_NONE,
                 .heavy =
                     network->frame.values != NULL && frame_level(&network->frame, core->carry[i])};
    edge.comes = network->row[edge.source] == NETWORK_NOWHERE;
    edge.goes_on = !frame_shows(&network->frame, i);
    if (edge.comes && edge.goes_on)
        return;
    edge.x = edge.goes_on ? gap_right(network) : network_sum_port(network, i);
    add_edge(network, edge);
}

static void connect_last(Network *network) {
    const AdderCore *core = network->frame.core;
    unsigned width = core->width;
    if (!frame_varies(core->carry[width]))
        return;
    add_edge(network, (Edge){.source = core->giver[width],
                             .row = sum_row(network),
                             .x = frame_left(&network->frame),
                             .leaves = true,
                             .heavy = network->frame.values != NULL &&
                                      frame_level(&network->frame, core->carry[width])});
}

/* ---- tracks -------------------------------------------------------------------------------- */

double network_spine(const Network *network, const Edge *edge) {
    if (edge->comes)
        return network_gap_left(network);
    double x = network_x(network, network_cell(network, edge->source)->top);
    return edge->beside ? x - network->lane : x;
}

/* What an edge needs of the tracks above a row, together with what the same net has there. */
static void claim(Network *network, int row, uint32_t source, double one, double other) {
    Span *trunk = network->trunk;
    uint32_t k = 0;
    while (k < network->trunk_count && (trunk[k].place != row || trunk[k].owner != source))
        k++;
    if (k == network->trunk_count)
        trunk[network->trunk_count++] = (Span){row, source, one, one, 0};
    span_reach(&trunk[k], one);
    span_reach(&trunk[k], other);
}

static void make_trunks(Network *network) {
    network->trunk = memory_zeroed(2 * network->edge_count + 1, sizeof network->trunk[0]);
    network->tracks = memory_zeroed((size_t)network->row_count + 2, sizeof network->tracks[0]);
    for (size_t k = 0; k < network->edge_count; k++) {
        const Edge *edge = &network->edge[k];
        if (edge->straight)
            continue;
        double spine = network_spine(network, edge);
        claim(network, edge->row, edge->source, spine, edge->x);
        if (edge->beside)
            claim(network, network->row[edge->source] + 1, edge->source,
                  network_x(network, network_cell(network, edge->source)->top), spine);
    }
    tracks_pack(network->trunk, network->trunk_count, 4, network->tracks);
}

const Span *network_trunk(const Network *network, int row, uint32_t source) {
    return tracks_find(network->trunk, network->trunk_count, row, source);
}

/* ---- rows ---------------------------------------------------------------------------------- */

enum {
    VALUES = 16, /* room for levels below a row of cells */
    NAMES = 16,  /* and for the carries' names above the sums */
};

static void place_rows(Network *network) {
    size_t rows = (size_t)network->row_count + 2;
    network->top = memory_zeroed(rows, sizeof network->top[0]);
    network->channel = memory_zeroed(rows, sizeof network->channel[0]);
    network->top[0] = network->columns_top;
    double y = network->columns_top + NETWORK_COLUMN;
    for (size_t row = 1; row < rows; row++) {
        network->channel[row] = y + (network->frame.values != NULL ? VALUES : 6);
        network->top[row] = network->channel[row] + NETWORK_TRACK * network->tracks[row] + 4;
        y = network->top[row] + NETWORK_CELL;
    }
    network->tap = network->top[rows - 1] + NAMES;
    network->top[rows - 1] = network->tap + 10;
}

void network_connect(Network *network) {
    const AdderCore *core = network->frame.core;
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
    memory_free(taken);
    make_trunks(network);
    place_rows(network);
}

double network_bottom_of(const Network *network, uint32_t cell) {
    int row = network->row[cell];
    return network->top[row] + (row == 0 ? NETWORK_COLUMN : NETWORK_CELL);
}

double network_track_y(const Network *network, const Span *trunk) {
    return network->channel[trunk->place] + NETWORK_TRACK * trunk->track;
}
