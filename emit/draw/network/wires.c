/* The columns, wires, cells and sums of a network picture on paper; connect.c says where wires go. */
#include "draw/network/network.h"

#include "base/memory.h"

/* From the cell to where its wire meets the track. */
static void draw_spine(Network *network, const Edge *edge, WireStyle style, double y) {
    const CoreCell *source = &network->frame.core->cell[edge->source];
    const double x = network_x(network, source->top);
    Scene *scene = network->frame.scene;
    scene_wire(scene, network_net(network, edge->source), style, x,
               network_bottom_of(network, edge->source));
    if (edge->beside) {
        int first = network->row[edge->source] + 1;
        double hop = network_track_y(network, network_trunk(network, first, edge->source));
        scene_to(scene, x, hop);
        scene_to(scene, network_spine(network, edge), hop);
    }
    scene_to(scene, network_spine(network, edge), y);
}

/* Among columns that are left out a wire is dashed, as far as where they begin. */
static void draw_omitted(Network *network, const Edge *edge, WireStyle style, double y) {
    Net net = network_net(network, edge->source);
    double shown =
        edge->comes ? network_gap_left(network) - NETWORK_DASHES : edge->x + NETWORK_DASHES;
    if (edge->goes_on) {
        scene_to(network->frame.scene, shown, y);
        scene_wire(network->frame.scene, net, WIRE_DASHED, shown, y);
        return;
    }
    scene_wire(network->frame.scene, net, WIRE_DASHED, network_spine(network, edge), y);
    scene_to(network->frame.scene, shown, y);
    scene_wire(network->frame.scene, net, style, shown, y);
}

static void draw_edge(Network *network, const Edge *edge) {
    const CoreCell *source = &network->frame.core->cell[edge->source];
    const WireStyle style = edge->heavy ? WIRE_HEAVY : WIRE_PLAIN;
    if (edge->straight) {
        frame_wire(&network->frame, network_net(network, edge->source), style,
                   network_x(network, source->top), network_bottom_of(network, edge->source),
                   network->top[edge->row]);
        return;
    }
    const double y = network_track_y(network, network_trunk(network, edge->row, edge->source));
    if (!edge->comes)
        draw_spine(network, edge, style, y);
    if (edge->comes || edge->goes_on)
        draw_omitted(network, edge, style, y);
    scene_to(network->frame.scene, edge->x, y);
    if (!edge->leaves && !edge->goes_on)
        scene_to(network->frame.scene, edge->x,
                 edge->taps ? network->tap : network->top[edge->row]);
}

static void draw_cells(Network *network) {
    const bool levels = network->frame.values != NULL && network_carries(network);
    for (uint32_t k = 0; k < network->frame.core->cell_count; k++) {
        const CoreCell *cell = &network->frame.core->cell[k];
        if (network->row[k] < 0)
            continue;
        double x = network_x(network, cell->top), y = network_bottom_of(network, k);
        if (network->row[k] > 0)
            scene_box(network->frame.scene, network_box(network, cell, x, y - NETWORK_CELL), "");
        if (!levels || cell->top < 0)
            continue;
        if (frame_varies(cell->generates))
            scene_value(network->frame.scene, x - 3, y + 11, ANCHOR_END, cell->generates,
                        frame_level(&network->frame, cell->generates));
        if (frame_varies(cell->passes))
            scene_value(network->frame.scene, x + 3, y + 11, ANCHOR_START, cell->passes,
                        frame_level(&network->frame, cell->passes));
    }
}

void network_draw_wires(Network *network) {
    for (size_t k = 0; k < network->edge_count; k++) {
        draw_edge(network, &network->edge[k]);
        if (network->edge[k].leaves)
            network->last_track = network_track_y(
                network, network_trunk(network, network->edge[k].row, network->edge[k].source));
    }
    draw_cells(network);
}

/* ---- columns and sums ------------------------------------------------------------------------ */

static void draw_column(Network *network, unsigned i) {
    const AdderCore *core = network->frame.core;
    const double half = network->lane + 1;
    const CoreCell *column = &core->cell[i + (core->cell[0].kind == CORE_FIRST)];
    bool carries = network_carries(network);
    bool generates = carries && frame_varies(column->generates);
    bool passes = carries && frame_varies(column->passes);
    scene_rect(network->frame.scene, SYMBOL_FRAME, network_x(network, (int)i) - half,
               network->columns_top, 2 * half, NETWORK_COLUMN,
               generates && passes ? "g, p"
               : generates         ? "g"
               : passes            ? "p"
                                   : "");
}

void network_draw_columns(Network *network) {
    for (unsigned i = 0; i < network->frame.core->width; i++)
        if (frame_shows(&network->frame, i))
            draw_column(network, i);
}

/* The sum of a column: its half sum, turned over where a carry enters. */
static void draw_sum(Network *network, unsigned i) {
    const Frame *frame = &network->frame;
    const AdderCore *core = frame->core;
    const double lane = frame_x(frame, i) + network->lane;
    const double sum = frame_x(frame, i) + frame->result_port;
    const double columns_end = network->columns_top + NETWORK_COLUMN;
    const double gate = network->top[network->row_count + 1];
    Literal half = core->half[i];
    if (!frame_varies(half))
        return;
    frame_beside(frame, half, lane, columns_end + 11);
    if (!frame_varies(core->carry[i]) || core->sum[i] == LITERAL_NONE) {
        scene_wire(frame->scene, half, WIRE_FINE, lane, columns_end);
        scene_to(frame->scene, lane, gate + GATE_ALONG / 2.0);
        scene_to(frame->scene, sum, gate + GATE_ALONG / 2.0);
        scene_to(frame->scene, sum, gate + GATE_ALONG);
        return;
    }
    frame_wire(frame, half, WIRE_FINE, lane, columns_end, gate);
    frame_gate(frame, SYMBOL_GATE, NODE_XOR, core->sum[i], sum, gate);
}

static void draw_carry_name(Network *network, unsigned i, double x, double y) {
    const Frame *frame = &network->frame;
    scene_name(frame->scene, x - 3, y, ANCHOR_END, frame->core->carry[i], "c%u", i);
    frame_carry_level(frame, i, frame->core->carry[i], x + 4, y, ANCHOR_START);
}

/* The sums, and the carries as they come to them or leave. */
void network_draw_sums(Network *network) {
    const Frame *frame = &network->frame;
    const AdderCore *core = frame->core;
    unsigned width = core->width;
    for (unsigned i = 0; i < width; i++) {
        if (!frame_shows(frame, i))
            continue;
        draw_sum(network, i);
        if (network->frame.drawn[i])
            draw_carry_name(network, i, network_sum_port(network, i), network->tap - 5);
    }
    if (frame_varies(core->carry[width]))
        draw_carry_name(network, width, frame_left(frame) - 80, network->last_track - 6);
}
