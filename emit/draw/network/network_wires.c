/* The wires and cells of a network picture on paper; network_connect.c says where they go. */
#include "draw/network/network.h"

#include "base/memory.h"

#include <stdlib.h>

/* From the cell to where its wire meets the track. */
static void draw_spine(Network *network, const Edge *edge, WireStyle style, double y) {
    const CoreCell *source = &network->netlist.core->cell[edge->source];
    const double x = network_x(network, source->top);
    Scene *scene = network->scene;
    scene_wire(scene, network_net(source), style, x, network_bottom_of(network, edge->source));
    if (edge->beside) {
        int first = network->row[edge->source] + 1;
        double hop = network_track_y(network, network_trunk_of(network, first, edge->source));
        scene_to(scene, x, hop);
        scene_to(scene, network_spine(network, edge), hop);
    }
    scene_to(scene, network_spine(network, edge), y);
}

/* Among columns that are left out a wire is dashed, as far as where they begin. */
static void draw_omitted(Network *network, const Edge *edge, WireStyle style, double y) {
    Net net = network_net(&network->netlist.core->cell[edge->source]);
    double shown =
        edge->comes ? network_gap_left(network) - NETWORK_DASHES : edge->x + NETWORK_DASHES;
    if (edge->goes_on) {
        scene_to(network->scene, shown, y);
        scene_wire(network->scene, net, WIRE_DASHED, shown, y);
        return;
    }
    scene_wire(network->scene, net, WIRE_DASHED, network_spine(network, edge), y);
    scene_to(network->scene, shown, y);
    scene_wire(network->scene, net, style, shown, y);
}

static void draw_edge(Network *network, const Edge *edge) {
    const CoreCell *source = &network->netlist.core->cell[edge->source];
    const WireStyle style = edge->heavy ? WIRE_HEAVY : WIRE_PLAIN;
    if (edge->straight) {
        network_lead(network, network_net(source), style, network_x(network, source->top),
                     network_bottom_of(network, edge->source), network->top[edge->row]);
        return;
    }
    const double y = network_track_y(network, network_trunk_of(network, edge->row, edge->source));
    if (!edge->comes)
        draw_spine(network, edge, style, y);
    if (edge->comes || edge->goes_on)
        draw_omitted(network, edge, style, y);
    scene_to(network->scene, edge->x, y);
    if (!edge->leaves && !edge->goes_on)
        scene_to(network->scene, edge->x, edge->taps ? network->tap : network->top[edge->row]);
}

/* How far down the wire of each cell goes, in its column and beside it: twice the row whose track
 * it reaches, and one more where it goes on into the row. */
static void find_depths(const Network *network, int *within, int *beside) {
    for (uint32_t k = 0; k < network->edge_count; k++) {
        const Edge *edge = &network->edge[k];
        int depth = 2 * edge->row + edge->straight;
        int *deepest = edge->beside ? &beside[edge->source] : &within[edge->source];
        if (!edge->comes && depth > *deepest)
            *deepest = depth;
    }
}

static void dot_where_joined(Network *network, const Trunk *trunk, double x, bool goes_on) {
    if (goes_on || (x > trunk->left + 0.1 && x < trunk->right - 0.1))
        scene_dot(network->scene, network_net(&network->netlist.core->cell[trunk->source]), x,
                  network_track_y(network, trunk));
}

static void draw_dots(Network *network) {
    size_t cells = network->netlist.core->cell_count;
    int *within = memory_zeroed(2 * cells + 1, sizeof within[0]), *beside = within + cells;
    find_depths(network, within, beside);
    for (uint32_t k = 0; k < network->edge_count; k++) {
        const Edge *edge = &network->edge[k];
        if (edge->straight)
            continue;
        const Trunk *trunk = network_trunk_of(network, edge->row, edge->source);
        if (!edge->goes_on && !edge->leaves)
            dot_where_joined(network, trunk, edge->x, false);
        if (edge->comes)
            continue;
        int deepest = edge->beside ? beside[edge->source] : within[edge->source];
        dot_where_joined(network, trunk, network_spine(network, edge), deepest > 2 * edge->row);
        int first = network->row[edge->source] + 1;
        if (edge->beside)
            dot_where_joined(network, network_trunk_of(network, first, edge->source),
                             network_x(network, network_column_of(network, edge->source)),
                             within[edge->source] > 2 * first);
    }
    free(within);
}

static void draw_cells(Network *network) {
    const bool levels = network->values != NULL && network_carries(network);
    for (uint32_t k = 0; k < network->netlist.core->cell_count; k++) {
        const CoreCell *cell = &network->netlist.core->cell[k];
        if (network->row[k] < 0)
            continue;
        double x = network_x(network, cell->top), y = network_bottom_of(network, k);
        if (network->row[k] > 0)
            scene_box(network->scene, network_box(network, cell, x, y - NETWORK_CELL), "");
        if (!levels || cell->top < 0)
            continue;
        if (network_varies(cell->generates))
            scene_value(network->scene, x - 3, y + 11, ANCHOR_END, cell->generates,
                        network_level(network, cell->generates));
        if (network_varies(cell->passes))
            scene_value(network->scene, x + 3, y + 11, ANCHOR_START, cell->passes,
                        network_level(network, cell->passes));
    }
}

void network_draw_wires(Network *network) {
    for (uint32_t k = 0; k < network->edge_count; k++) {
        draw_edge(network, &network->edge[k]);
        if (network->edge[k].leaves)
            network->last_track = network_track_y(
                network, network_trunk_of(network, network->edge[k].row, network->edge[k].source));
    }
    draw_dots(network);
    draw_cells(network);
}
