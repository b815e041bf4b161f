/* The network picture, see network.h: the steps. */
#include "draw/network/network.h"

#include "base/memory.h"
#include "draw/draw.h"
#include "gates/build.h"

enum { SHOWN = 12 /* columns at either end where some are left out */ };

/* ---- columns --------------------------------------------------------------------------------- */

/* Cells of two inputs are narrow. */
static void choose_columns(Network *network) {
    Frame *frame = &network->frame;
    const AdderCore *core = frame->core;
    bool all = core->width <= DRAW_COLUMNS_MAX;
    int inputs = 2;
    for (uint32_t k = 0; k < core->cell_count; k++)
        if (core->cell[k].in_count > inputs)
            inputs = core->cell[k].in_count;
    network->half_cell = inputs == 2 ? 15 : 21;
    network->lane = network->half_cell + 5;
    frame->top = core->width;
    frame->gap_low = all ? core->width : SHOWN;
    frame->gap_high = all ? core->width : core->width - SHOWN;
    frame->pitch = 2 * network->half_cell + (all ? 20 : 34); /* longer numbers */
    frame->half = core->width == 1 ? 38 : network->lane + 8;
    frame->result_port = network->lane - GATE_INPUT;
}

/* What two signals together turn over; LITERAL_NONE where that takes a gate. */
static Literal together(Literal one, Literal other) {
    if (literal_is_constant(one) || literal_is_constant(other))
        return literal_is_constant(one) ? other ^ one : one ^ other;
    return literal_node(one) == literal_node(other) ? (one ^ other) & 1u : LITERAL_NONE;
}

/* An operand is drawn gate by gate where one line turns over one of the two, or an inverter; where
 * more is done, it is done in a box. */
static void choose_operands(Network *network) {
    Frame *frame = &network->frame;
    const AdderCore *core = frame->core;
    const Literal *signal = core->signal;
    FrameOperand *x = &frame->operand[0], *y = &frame->operand[1];
    Literal turned = core->turned == LITERAL_NONE ? LITERAL_0 : core->turned;
    *x = (FrameOperand){LITERAL_1, together(signal[SIGNAL_INVERT_A], turned), core->x, -12};
    *y = (FrameOperand){signal[SIGNAL_USE_B], together(signal[SIGNAL_INVERT_B], turned), core->y,
                        12};
    bool x_straight = x->invert == LITERAL_0;
    bool y_straight =
        y->invert == LITERAL_0 || (y->select == LITERAL_0 && literal_is_constant(y->invert));
    frame->boxed = x->invert == LITERAL_NONE || y->invert == LITERAL_NONE ||
                   frame_varies(y->select) || (!x_straight && !y_straight);
    frame->plain = frame_varies(turned) && !x_straight;
    frame->plain_port = -20;
    if (frame->boxed) {
        x->port = -8;
        y->port = 8;
        frame_add_line(frame, frame_input(frame, PIN_LINE, 0), false);
    } else {
        x->port = frame_varies(x->invert) ? -5 : frame_varies(y->invert) ? -17 : -12;
        y->port = frame_varies(x->invert) ? 13 : frame_varies(y->invert) ? 14 : 12;
        frame_add_line(frame, x->invert, false);
        frame_add_line(frame, y->invert, false);
    }
}

/* ---- carries --------------------------------------------------------------------------------- */

bool network_carries(const Network *network) {
    for (unsigned i = 0; i <= network->frame.core->width; i++)
        if (network->frame.drawn[i])
            return true;
    return false;
}

double network_sum_port(const Network *network, unsigned column) {
    return frame_x(&network->frame, column) + network->lane - 2 * GATE_INPUT;
}

/* ---- the whole ------------------------------------------------------------------------------- */

static void free_parts(Network *network) {
    memory_free(network->row);
    memory_free(network->level);
    memory_free(network->top);
    memory_free(network->channel);
    memory_free(network->tracks);
    memory_free(network->on_path);
    memory_free(network->edge);
    memory_free(network->trunk);
    frame_close(&network->frame);
}

/* The first carry comes in beside the columns, where a constant is nothing to see. */
static void draw_top(Network *network) {
    Frame *frame = &network->frame;
    const AdderCore *core = frame->core;
    bool enters = core->cell_count > 0 && core->cell[0].kind == CORE_FIRST &&
                  core_cell_is_there(&core->cell[0]);
    frame_draw_pins(frame);
    frame_draw_operands(frame);
    network->columns_top = frame->y;
    frame->first_y = frame->y + NETWORK_COLUMN / 2.0;
    network_draw_columns(network);
    frame_draw_lines(frame);
    frame_draw_sources(frame, enters ? core->carry[0] : LITERAL_NONE, NETWORK_FIRST_X);
    if (enters)
        frame_wire(frame, core->carry[0], network->on_path[0] ? WIRE_HEAVY : WIRE_PLAIN,
                   NETWORK_FIRST_X, frame->first_y, frame->y + NETWORK_COLUMN);
}

static void draw_bottom(Network *network) {
    Frame *frame = &network->frame;
    const double left = frame_left(frame);
    network_draw_sums(network);
    frame->y = network->top[network->row_count + 1] + GATE_ALONG;
    frame_draw_result(frame);
    Point sign = {network_sum_port(network, frame->core->width - 1), network->tap};
    Point last = {left, network->last_track > 0 ? network->last_track : network->tap};
    frame_draw_flags(frame, last, sign);
}

char *network_draw(const Unit *unit, const Working *example, Scene *scene) {
    Network network = {.row_count = 0};
    Netlist netlist;
    build_of_any_kind(unit, &netlist);
    frame_open(&network.frame, unit, example, &netlist, CARRIES_THAT_VARY, scene);
    choose_columns(&network);
    choose_operands(&network);
    network_plan(&network);
    draw_top(&network);
    network_connect(&network);
    network_draw_wires(&network);
    draw_bottom(&network);
    network_draw_groups(&network);
    network_draw_notes(&network);
    char *words = network_describe(&network);
    free_parts(&network);
    netlist_free(&netlist);
    return words;
}
