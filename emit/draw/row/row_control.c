/* The control lines of the row picture, and where they come from: a pin, an inverted pin, or the
 * gates that decode the control pins, shown as one box. */
#include "draw/row/row.h"

#include <stdlib.h>

enum {
    LEVEL_X = 2,   /* where a line's level stands, left of where the first carry may rise */
    SOURCE_X = 32, /* where inverters and the decoder begin */
    DECODER = 84,  /* its width */
    REGISTER_X = 134,
    REGISTER = 30,
    NAME_GAP = 24, /* of the wire before a name */
    PIN_GAP = 18,
};

static bool is_gate(const Row *row, Literal literal) {
    return netlist_is_gate(&row->build.netlist.nodes[literal_node(literal)]);
}

static void add_line(Row *row, Signal signal, bool selects_b) {
    Literal literal = row_signal(row, signal);
    if (!row_varies(literal))
        return;
    for (int k = 0; k < row->line_count; k++)
        if (row->line[k].literal == literal && row->line[k].selects_b == selects_b)
            return;
    row->line[row->line_count++] = (RowLine){.literal = literal, .selects_b = selects_b};
}

void row_choose_lines(Row *row) {
    row->line_count = 0;
    add_line(row, SIGNAL_USE_B, true);
    add_line(row, row->borrow_form ? SIGNAL_TURN_A : SIGNAL_INVERT_A, false);
    add_line(row, row->borrow_form ? SIGNAL_TURN_B : SIGNAL_INVERT_B, false);
}

/* The lines from the leftmost reader to a little right of the band, with their names there, but in
 * the lowest band, where they go on to their sources. */
void row_draw_lines(Row *row) {
    for (int k = 0; k < row->line_count; k++) {
        const RowLine *line = &row->line[k];
        scene_wire(row->scene, line->literal, WIRE_PLAIN, line->left, line->y);
        scene_to(row->scene, SOURCE_X, line->y);
        bool from_pin = !literal_inverted(line->literal) && !is_gate(row, line->literal);
        if (row->low > 0 || !from_pin)
            row_level_above(row, line->literal, LEVEL_X, line->y);
        if (row->low == 0)
            continue;
        char *name = row_name(row, line->literal);
        scene_name(row->scene, SOURCE_X + 4, line->y + 4, ANCHOR_START, line->literal, "%s", name);
        free(name);
    }
}

/* ---- the decoder ------------------------------------------------------------------------------
 */

/* Does anything that the band shows come from gates of the control part? */
static bool has_decoder(const Row *row, Literal first) {
    bool any = is_gate(row, first) || is_gate(row, row_signal(row, SIGNAL_ACTIVE));
    for (int k = 0; k < row->line_count; k++)
        any = any || is_gate(row, row->line[k].literal);
    return any;
}

/* A pin's wire from its name to x, through the register where there is one. Names stand below each
 * other, right of the edge. */
static void draw_pin(Row *row, Literal literal, double edge, double x, double y) {
    bool registered = row->unit->registers == REGISTERS_BOTH;
    double from = edge + NAME_GAP;
    if (registered)
        from = REGISTER_X + REGISTER + NAME_GAP;
    const double name_x = from;
    char *name = row_name(row, literal & ~1u);
    Net net = literal & ~1u;
    scene_name(row->scene, name_x + 4, y + 4, ANCHOR_START, net, "%s", name);
    if (row->values != NULL)
        scene_value(row->scene, name_x - 10, y - 4, ANCHOR_START, net, row_level(row, net));
    if (registered) {
        scene_wire(row->scene, net, WIRE_PLAIN, from, y);
        scene_to(row->scene, REGISTER_X + REGISTER, y);
        from = REGISTER_X;
    }
    scene_wire(row->scene, net, WIRE_PLAIN, from, y);
    scene_to(row->scene, x, y);
    free(name);
}

/* The control pins and cin, one below the other from y down; returns how many. Draws nothing where
 * draw is false. */
static int draw_decoder_pins(Row *row, double y, bool draw) {
    const Netlist *netlist = &row->build.netlist;
    int count = 0;
    for (uint32_t k = 1; k < netlist->node_count && netlist->nodes[k].kind == NODE_INPUT; k++) {
        Pin pin = netlist->nodes[k].pin;
        if (pin == PIN_A || pin == PIN_B)
            continue;
        if (draw)
            draw_pin(row, k * 2, SOURCE_X + DECODER, SOURCE_X + DECODER, y + PIN_GAP * count);
        count++;
    }
    return count;
}

static void draw_register(const Row *row, double top, double bottom) {
    Box box = {.symbol = SYMBOL_REGISTER,
               .x = REGISTER_X,
               .y = top,
               .width = REGISTER,
               .height = bottom - top};
    scene_box(row->scene, box, "");
    double clock = bottom - 9;
    scene_wire(row->scene, net_of_pin(PIN_CLK), WIRE_PLAIN, box.x - 8, clock);
    scene_to(row->scene, box.x, clock);
}

static double draw_decoder(Row *row, double top, double bottom) {
    double height = PIN_GAP * (double)draw_decoder_pins(row, 0, false) + 8;
    bool registered = row->unit->registers == REGISTERS_BOTH;
    if (bottom - top < height)
        top = bottom - height;
    Box box = {
        .symbol = SYMBOL_FRAME, .x = SOURCE_X, .y = top, .width = DECODER, .height = bottom - top};
    scene_box(row->scene, box, "decode\ncontrol");
    draw_decoder_pins(row, top + 12, true);
    if (registered)
        draw_register(row, top, top + height + 22);
    return registered ? top + height + 22 : bottom;
}

/* ---- single sources ----------------------------------------------------------------------------
 */

static bool is_inverted_pin(const Row *row, Literal literal) {
    return row_varies(literal) && literal_inverted(literal) && !is_gate(row, literal);
}

/* Where inverters end, if there are any. */
static double sources_edge(const Row *row) {
    bool any = is_inverted_pin(row, row->build.adder.carry[0]);
    for (int k = 0; k < row->line_count; k++)
        any = any || is_inverted_pin(row, row->line[k].literal);
    return any ? SOURCE_X + GATE_ALONG : SOURCE_X;
}

/* From a line's right end back to its pin. */
static void draw_source(Row *row, Literal literal, double y) {
    if (!literal_inverted(literal)) {
        draw_pin(row, literal, sources_edge(row), SOURCE_X, y);
        return;
    }
    Box box = {.symbol = SYMBOL_INVERTER,
               .x = SOURCE_X,
               .y = y - GATE_ACROSS / 2.0,
               .width = GATE_ALONG,
               .height = GATE_ACROSS,
               .facing = FACING_LEFT};
    scene_box(row->scene, box, "");
    draw_pin(row, literal, sources_edge(row), SOURCE_X + GATE_ALONG, y);
}

/* The line that carries a literal too, nearest to the adders. */
static const RowLine *line_of(const Row *row, Literal literal) {
    const RowLine *found = NULL;
    for (int k = 0; k < row->line_count; k++)
        if (row->line[k].literal == literal)
            found = &row->line[k];
    return found;
}

/* The first carry: a constant, a line's level, a pin, or the decoder's. Where it enters the band a
 * wire has come to an end. */
static void draw_first_carry(Row *row, Literal first, bool decoder) {
    double from = row_middle(row, 0) + ROW_BOX / 2.0 + row_pitch(row) - ROW_BOX;
    const RowLine *line = line_of(row, first);
    if (!row_varies(first)) {
        scene_name(row->scene, from + 6, row->adders + 4, ANCHOR_START, first, "%d",
                   first == LITERAL_1);
        return;
    }
    scene_wire(row->scene, first, WIRE_PLAIN, from, row->adders);
    if (line != NULL) {
        scene_to(row->scene, from, line->y);
        scene_dot(row->scene, first, from, line->y);
        return;
    }
    scene_to(row->scene, SOURCE_X, row->adders);
    if (!decoder)
        draw_source(row, first, row->adders);
}

void row_draw_sources(Row *row) {
    Literal first = row->build.adder.carry[0];
    double top = row->adders, bottom = row->adders + 14, pins = 0;
    bool decoder = has_decoder(row, first);
    for (int k = 0; k < row->line_count; k++) {
        const RowLine *line = &row->line[k];
        top = line->y < top ? line->y : top;
        if (!is_gate(row, line->literal) && decoder)
            continue;
        if (!decoder)
            draw_source(row, line->literal, line->y);
        pins++;
    }
    draw_first_carry(row, first, decoder);
    if (decoder)
        draw_decoder(row, top - 12, bottom);
    else if (row->unit->registers == REGISTERS_BOTH && pins > 0)
        draw_register(row, top - 12, bottom + 22);
}
