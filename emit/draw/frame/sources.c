/* Where the control lines and the first carry of a picture of columns come from: a pin, an inverted
 * pin, or the gates that decode the control pins, shown as one box. See frame.h. */
#include "draw/frame/frame.h"

#include "base/memory.h"

enum {
    SOURCE_X = 32, /* where inverters and the decoder begin */
    DECODER = 84,  /* its width */
    REGISTER_X = 134,
    REGISTER = 30,
    NAME_GAP = 24, /* of the wire before a name */
    PIN_GAP = 18,
};

static bool is_inverted_pin(const Frame *frame, Literal literal) {
    return frame_varies(literal) && literal_inverted(literal) && !frame_is_gate(frame, literal);
}

/* A pin's wire from its name to x, through the register where there is one. Names stand below each
 * other, right of the edge. */
static void draw_pin(Frame *frame, Net pin, double edge, double x, double y) {
    double from = edge + NAME_GAP;
    if (frame->unit->registers == REGISTERS_BOTH) {
        from = REGISTER_X + REGISTER + NAME_GAP;
        scene_wire(frame->scene, pin, WIRE_PLAIN, REGISTER_X, y);
        scene_to(frame->scene, x, y);
        x = REGISTER_X + REGISTER;
    }
    char *name = frame_name(frame, pin);
    frame_stub(frame, pin, name, x, from, y);
    frame_above(frame, pin, from - 10, y);
    memory_free(name);
}

static void draw_register(const Frame *frame, double top, double bottom) {
    frame_register(frame, (Extent){REGISTER_X, top, REGISTER_X + REGISTER, bottom}, 8);
}

/* The box with the control pins and cin on its right, one below the other. */
static void draw_decoder(Frame *frame, double top, double bottom) {
    const Netlist *netlist = frame->netlist;
    double pins = 0;
    for (uint32_t k = 1; k < netlist->node_count && netlist->nodes[k].kind == NODE_INPUT; k++)
        pins += netlist->nodes[k].pin != PIN_A && netlist->nodes[k].pin != PIN_B;
    double height = PIN_GAP * pins + 8;
    top = bottom - top < height ? bottom - height : top;
    scene_rect(frame->scene, SYMBOL_FRAME, SOURCE_X, top, DECODER, bottom - top, "decode\ncontrol");
    double y = top + 12;
    for (uint32_t k = 1; k < netlist->node_count && netlist->nodes[k].kind == NODE_INPUT; k++) {
        if (netlist->nodes[k].pin == PIN_A || netlist->nodes[k].pin == PIN_B)
            continue;
        draw_pin(frame, k * 2, SOURCE_X + DECODER, SOURCE_X + DECODER, y);
        y += PIN_GAP;
    }
    if (frame->unit->registers == REGISTERS_BOTH)
        draw_register(frame, top, top + height + 22);
}

bool frame_decodes(const Frame *frame) {
    const AdderCore *core = frame->core;
    bool any =
        frame_is_gate(frame, core->carry[0]) || frame_is_gate(frame, core->signal[SIGNAL_ACTIVE]);
    for (int k = 0; k < frame->line_count; k++)
        any = any || frame->line[k].literal == LITERAL_NONE ||
              frame_is_gate(frame, frame->line[k].literal);
    return any;
}

/* Where inverters end, if there are any. */
static double sources_edge(const Frame *frame, Literal first) {
    bool any = is_inverted_pin(frame, first);
    for (int k = 0; k < frame->line_count; k++)
        any = any || is_inverted_pin(frame, frame->line[k].literal);
    return any ? SOURCE_X + GATE_ALONG : SOURCE_X;
}

/* From a line's right end back to its pin. */
static void draw_source(Frame *frame, Literal literal, double edge, double y) {
    bool inverted = literal_inverted(literal);
    if (inverted)
        scene_box(frame->scene,
                  (Box){.symbol = SYMBOL_INVERTER,
                        .x = SOURCE_X,
                        .y = y - GATE_ACROSS / 2.0,
                        .width = GATE_ALONG,
                        .height = GATE_ACROSS,
                        .facing = FACING_LEFT},
                  "");
    draw_pin(frame, literal & ~1u, edge, inverted ? SOURCE_X + GATE_ALONG : SOURCE_X, y);
}

/* The first carry: a constant, a line's level, a pin, or the decoder's. Where it enters the core a
 * wire has come to an end. Returns whether it comes from here and not from a line. */
static bool draw_first(Frame *frame, Literal first, double x) {
    double y = frame->first_y;
    if (!frame_varies(first)) {
        if (first != LITERAL_NONE)
            scene_name(frame->scene, x + 6, y + 4, ANCHOR_START, first, "%d", first == LITERAL_1);
        return false;
    }
    scene_wire(frame->scene, first, frame_carry_is_1(frame, 0) ? WIRE_HEAVY : WIRE_PLAIN, x, y);
    for (int k = frame->line_count; k-- > 0;)
        if (frame->line[k].literal == first) {
            scene_to(frame->scene, x, frame->line[k].y);
            return false;
        }
    scene_to(frame->scene, SOURCE_X, y);
    return true;
}

void frame_draw_sources(Frame *frame, Literal first, double x) {
    double top = frame->first_y, bottom = top + 14, edge = sources_edge(frame, first);
    bool decoder = frame_decodes(frame), pins = frame->line_count > 0;
    for (int k = 0; k < frame->line_count; k++) {
        const FrameLine *line = &frame->line[k];
        top = line->y < top ? line->y : top;
        if (!decoder)
            draw_source(frame, line->literal, edge, line->y);
    }
    if (draw_first(frame, first, x) && !decoder) {
        draw_source(frame, first, edge, frame->first_y);
        pins = true;
    }
    if (decoder)
        draw_decoder(frame, top - 12, bottom);
    else if (frame->unit->registers == REGISTERS_BOTH && pins)
        draw_register(frame, top - 12, bottom + 22);
}
