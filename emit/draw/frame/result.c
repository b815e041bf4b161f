/* What lies between the sums of a picture of columns and the result. See frame.h. */
#include "draw/frame/frame.h"

#include "base/memory.h"
#include "draw/notes.h"

enum { SUMS = 54, GAP = 26, BAR = 4, BELOW = 24, TOLD = 20 };

/* What a box is told, by name at its right edge. */
static void draw_told(Frame *frame, Literal literal, double y) {
    double edge = frame_right(frame);
    if (!frame_varies(literal))
        return;
    char *name = frame_name(frame, literal);
    frame_stub(frame, literal, name, edge, edge + TOLD + 4, y);
    frame_above(frame, literal, edge + 10, y);
    memory_free(name);
}

/* The gate of a meaning, LITERAL_NONE where there is none. */
static Literal gate_of(const Frame *frame, Role role) {
    const Netlist *netlist = frame->netlist;
    for (uint32_t k = netlist->node_count; k-- > 1;)
        if (netlist_is_gate(&netlist->nodes[k]) && netlist->nodes[k].role == role)
            return k * 2 + netlist->nodes[k].complement;
    return LITERAL_NONE;
}

/* Saturation is told that the result is too high, or too low; or that the exact result is below
 * zero, which then is all it needs to know. */
static void draw_saturation(Frame *frame, double top) {
    bool is_signed = frame->unit->overflow == OVERFLOW_SATURATE_SIGNED;
    Literal low = gate_of(frame, ROLE_TOO_LOW);
    if (low == LITERAL_NONE)
        low = gate_of(frame, is_signed ? ROLE_BELOW_ZERO : ROLE_BORROWS);
    draw_told(frame, gate_of(frame, ROLE_TOO_HIGH), top + 8);
    draw_told(frame, low, top + 26);
}

/* What a column hands down: its sum, or where that is not made the sum but for the carry; or its
 * bit of the result. */
static Literal handed(const Frame *frame, bool delivered, unsigned i) {
    const AdderCore *core = frame->core;
    return delivered                      ? core->result[i]
           : core->sum[i] == LITERAL_NONE ? core->half[i]
                                          : core->sum[i];
}

static void lead_all(Frame *frame, bool delivered, double from, double to) {
    for (unsigned i = frame->low; i < frame->top; i++) {
        Literal literal = handed(frame, delivered, i);
        if (frame_shows(frame, i) && literal != LITERAL_NONE)
            frame_lead(frame, literal, frame_x(frame, i) + frame->result_port, from, to);
    }
}

/* The result as a bar where all its bits end. */
static void draw_bar(Frame *frame, double from) {
    double left = frame_left(frame), right = frame_right(frame);
    lead_all(frame, true, from, frame->y);
    for (unsigned i = frame->low; i < frame->top; i++)
        if (frame_shows(frame, i))
            scene_name(frame->scene, frame_x(frame, i) + frame->result_port - 4, frame->y - 4,
                       ANCHOR_END, frame->core->result[i], "%u", i);
    uint32_t bar = scene_rect(frame->scene, SYMBOL_FRAME, left, frame->y, right - left, BAR, "");
    frame->scene->box[bar].shade = SHADE_BLACK;
    char *bits = frame->top - frame->low > 1 ? memory_text("%u:%u", frame->top - 1, frame->low)
                                             : memory_text("%u", frame->low);
    scene_name(frame->scene, right + 12, frame->y + 6, ANCHOR_START, net_of_pin(PIN_RESULT),
               "%s[%s]", notes_short(frame->unit->pin[PIN_RESULT], FRAME_NAME).text, bits);
    memory_free(bits);
    frame->y += BELOW;
}

void frame_draw_result(Frame *frame) {
    const Unit *unit = frame->unit;
    Literal active = frame->core->signal[SIGNAL_ACTIVE];
    const struct {
        bool there;
        Symbol symbol;
        double height;
        const char *label;
    } across[] = {{unit->overflow != OVERFLOW_WRAP, SYMBOL_FRAME, 34, "saturate"},
                  {frame_varies(active), SYMBOL_FRAME, 28, "if active"},
                  {unit->registers != REGISTERS_NONE, SYMBOL_REGISTER, 28, "registers"}};
    double from = frame->y;
    bool delivered = unit->overflow == OVERFLOW_WRAP && !frame_varies(active);
    frame->y += SUMS;
    for (size_t k = 0; k < sizeof across / sizeof across[0]; k++) {
        if (!across[k].there)
            continue;
        lead_all(frame, delivered, from, frame->y);
        if (k == 0)
            draw_saturation(frame, frame->y);
        if (k == 1)
            draw_told(frame, active, frame->y + 14);
        frame_across(frame, across[k].symbol, FACING_LEFT, across[k].height, across[k].label);
        delivered = true;
        from = frame->y;
        frame->y += GAP;
    }
    draw_bar(frame, from);
}
