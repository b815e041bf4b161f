/* The upper part of a picture of columns: pins, registers, the operand row and its control lines.
 * See frame.h. */
#include "draw/frame/frame.h"

#include "base/memory.h"
#include "write/svg.h"

#include <assert.h>
enum {
    NAMES = 28,       /* the pins' names */
    PLAIN = 16,       /* where the pin goes on beside its gate */
    STAGGER = 14,     /* where they are long, from one of the two heights to the other */
    STUB = 20,        /* of a pin, to the registers */
    REGISTERS = 28,   /* their height */
    LINE_GAP = 16,    /* from control line to control line */
    LINE_ROOM = 26,   /* above the first */
    OPERAND_BOX = 30, /* a box that does what is done to both operands */
    LINE_END = 32,    /* where a line ends on the right of the columns, */
    LEVEL_X = 2,      /* and where its level stands */
};

/* Heights of the operand row: where wires begin, the tops of gates, where the columns begin. */
typedef struct {
    double pins, select, invert, columns;
} Heights;

/* ---- lines ----------------------------------------------------------------------------------- */

static FrameLine *find_line(Frame *frame, Literal literal, bool selects) {
    for (int k = 0; k < frame->line_count; k++)
        if (frame->line[k].literal == literal && frame->line[k].selects == selects)
            return &frame->line[k];
    return NULL;
}

void frame_add_line(Frame *frame, Literal literal, bool selects) {
    if (literal_is_constant(literal) || find_line(frame, literal, selects) != NULL)
        return;
    assert(frame->line_count < FRAME_LINES_MAX);
    frame->line[frame->line_count++] = (FrameLine){.literal = literal, .selects = selects};
}

/* Several signals in one line are a net of their own. */
static Net net_of(const FrameLine *line) {
    return line->literal == LITERAL_NONE ? net_of_pin(PIN_COUNT) : line->literal;
}

void frame_tap(Frame *frame, FrameLine *line, double x, double to) {
    assert(line != NULL);
    line->left = x < line->left ? x : line->left;
    frame_wire(frame, net_of(line), WIRE_PLAIN, x, line->y, to);
}

/* From the leftmost reader to a little right of the columns, with their names there, but in the
 * lowest columns, where they go on to their sources. */
void frame_draw_lines(Frame *frame) {
    for (int k = 0; k < frame->line_count; k++) {
        const FrameLine *line = &frame->line[k];
        scene_wire(frame->scene, net_of(line), WIRE_PLAIN, line->left, line->y);
        scene_to(frame->scene, LINE_END, line->y);
        if (line->literal == LITERAL_NONE)
            continue;
        bool from_pin = !literal_inverted(line->literal) && !frame_decodes(frame);
        if (frame->low > 0 || !from_pin)
            frame_above(frame, line->literal, LEVEL_X, line->y);
        if (frame->low == 0)
            continue;
        char *name = frame_name(frame, line->literal);
        scene_name(frame->scene, LINE_END + 4, line->y + 4, ANCHOR_START, line->literal, "%s",
                   name);
        memory_free(name);
    }
}

/* ---- pins ------------------------------------------------------------------------------------ */

static bool is_read(const Frame *frame, int which) {
    return frame->pin[which][frame->low] != LITERAL_NONE;
}

/* Gates stand on the wire of their output; the input that is data is GATE_INPUT left of it, so the
 * wire above is, too. */
static double pin_x(const Frame *frame, int which) {
    const FrameOperand *operand = &frame->operand[which];
    double x = operand->port;
    if (frame->boxed)
        return which == 0 ? -12 : 12;
    if (frame_varies(operand->invert))
        x -= GATE_INPUT;
    if (frame_varies(operand->select))
        x -= GATE_INPUT;
    return x;
}

/* Are the names of a and b too long to stand side by side? */
static bool are_close(const Frame *frame) {
    char name[16];
    snprintf(name, sizeof name, "b%u", frame->top - 1);
    return svg_text_width(name, scene_text_size(TEXT_PLAIN)) + 2 >
           pin_x(frame, 1) - pin_x(frame, 0);
}

static void draw_pin(const Frame *frame, unsigned i, int which, bool raised) {
    Literal literal = frame->pin[which][i];
    double x = frame_x(frame, i) + pin_x(frame, which), y = frame->y - (raised ? STAGGER : 0);
    scene_name(frame->scene, x, y - 4, ANCHOR_MIDDLE, literal, "%c%u", which == 0 ? 'a' : 'b', i);
    if (raised)
        frame_wire(frame, literal, WIRE_PLAIN, x, y, frame->y);
    if (frame->unit->registers == REGISTERS_BOTH)
        frame_lead(frame, literal, x, frame->y, frame->y + STUB);
}

void frame_draw_pins(Frame *frame) {
    bool staggered = is_read(frame, 1) && are_close(frame);
    frame->y += NAMES;
    for (unsigned i = frame->low; i < frame->top; i++)
        for (int which = 0; which < 2 && frame_shows(frame, i); which++)
            if (is_read(frame, which))
                draw_pin(frame, i, which, staggered && which == 0);
    if (frame->unit->registers != REGISTERS_BOTH)
        return;
    frame->y += STUB;
    frame_across(frame, SYMBOL_REGISTER, FACING_RIGHT, REGISTERS, "registers");
}

/* ---- operands -------------------------------------------------------------------------------- */

static bool has_gates(const Frame *frame, bool selects) {
    for (int which = 0; which < 2; which++) {
        const FrameOperand *operand = &frame->operand[which];
        if (selects ? frame_varies(operand->select)
                    : operand->invert != LITERAL_0 && operand->select != LITERAL_0)
            return true;
    }
    return false;
}

/* Puts lines and gates at their heights. */
static Heights place(Frame *frame) {
    Heights heights = {.pins = frame->y};
    double y = frame->y;
    for (int level = 0; level < 2; level++) {
        bool selects = level == 0, any = false;
        for (int k = 0; k < frame->line_count; k++)
            if (frame->line[k].selects == selects) {
                frame->line[k].left = 0;
                frame->line[k].y = any ? y + LINE_GAP : y + LINE_ROOM;
                y = frame->line[k].y;
                any = true;
            }
        double top = y + (any ? 10 : 22);
        *(selects ? &heights.select : &heights.invert) = top;
        if (frame->boxed && !selects)
            y = top + OPERAND_BOX;
        else if (!frame->boxed && has_gates(frame, selects))
            y = top + GATE_ALONG;
    }
    heights.columns = y + 28;
    return heights;
}

/* The AND gate that lets an operand through where the operation reads it: what it delivers. */
static Literal selected(const Frame *frame, unsigned i) {
    const Netlist *netlist = frame->netlist;
    for (uint32_t k = 1; k < netlist->node_count; k++)
        if (netlist->nodes[k].role == ROLE_USED_B && netlist->nodes[k].index == (int)i)
            return k * 2;
    return LITERAL_NONE;
}

/* Where no operation reads the operand its pin is not there: what enters is a constant, or the line
 * that would have turned it over. */
static void draw_unread(Frame *frame, const FrameOperand *operand, Literal out, double x,
                        double y) {
    if (operand->invert == LITERAL_NONE || literal_is_constant(out)) {
        scene_name(frame->scene, x, y - 12, ANCHOR_MIDDLE, out, "%d", out == LITERAL_1);
        frame_wire(frame, out, WIRE_PLAIN, x, y - 9, y);
        return;
    }
    frame_tap(frame, find_line(frame, operand->invert, false), x, y);
}

/* The columns want the pin itself, too: beside the gate that turns it over, if that is there. */
static void draw_plain(Frame *frame, unsigned i, double from, const Heights *heights) {
    double x = frame_x(frame, i) + frame->plain_port, y = heights->pins + PLAIN;
    Literal pin = frame->pin[0][i];
    scene_wire(frame->scene, pin, WIRE_PLAIN, from, heights->pins);
    scene_to(frame->scene, from, y);
    scene_to(frame->scene, x, y);
    scene_to(frame->scene, x, heights->columns);
}

static void draw_operand(Frame *frame, unsigned i, int which, const Heights *heights) {
    const FrameOperand *operand = &frame->operand[which];
    double x = frame_x(frame, i) + operand->port, data = frame_x(frame, i) + pin_x(frame, which);
    double from = heights->pins;
    Literal now = frame->pin[which][i], out = operand->out[i];
    if (which == 0 && frame->plain)
        draw_plain(frame, i, data, heights);
    if (out == LITERAL_NONE)
        return;
    if (operand->select == LITERAL_0) {
        draw_unread(frame, operand, out, x, heights->columns);
        return;
    }
    if (frame_varies(operand->select)) {
        frame_lead(frame, now, data, from, heights->select);
        now = selected(frame, i);
        frame_gate(frame, SYMBOL_GATE, NODE_AND, now, data + GATE_INPUT, heights->select);
        frame_tap(frame, find_line(frame, operand->select, true), data + 2 * GATE_INPUT,
                  heights->select);
        from = heights->select + GATE_ALONG;
    }
    if (operand->invert == LITERAL_0) {
        frame_lead(frame, out, x, from, heights->columns);
        return;
    }
    bool gate = frame_varies(operand->invert);
    frame_lead(frame, now, x - (gate ? GATE_INPUT : 0), from, heights->invert);
    frame_gate(frame, gate ? SYMBOL_GATE : SYMBOL_INVERTER, NODE_XOR, gate ? out : LITERAL_0, x,
               heights->invert);
    if (gate)
        frame_tap(frame, find_line(frame, operand->invert, false), x + GATE_INPUT, heights->invert);
    frame_lead(frame, out, x, heights->invert + GATE_ALONG, heights->columns);
}

/* What is done to the operands, as a box. */
static void draw_box(Frame *frame, unsigned i, const Heights *heights) {
    double x = frame_x(frame, i), half = frame->pitch / 2 - 4, end = heights->invert + OPERAND_BOX;
    scene_rect(frame->scene, SYMBOL_FRAME, x - half, heights->invert, 2 * half, OPERAND_BOX,
               "X, Y");
    for (int which = 0; which < 2; which++) {
        Literal out = frame->operand[which].out[i];
        if (is_read(frame, which))
            frame_lead(frame, frame->pin[which][i], x + pin_x(frame, which), heights->pins,
                       heights->invert);
        if (frame_varies(out))
            frame_lead(frame, out, x + frame->operand[which].port, end, heights->columns);
    }
    if (frame->plain && frame_varies(frame->core->added_x[i]))
        frame_wire(frame, frame->core->added_x[i], WIRE_PLAIN, x + frame->plain_port, end,
                   heights->columns);
    for (int k = 0; k < frame->line_count; k++)
        frame_tap(frame, &frame->line[k], x, heights->invert);
}

void frame_draw_operands(Frame *frame) {
    Heights heights = place(frame);
    for (unsigned i = frame->low; i < frame->top; i++) {
        if (!frame_shows(frame, i))
            continue;
        if (frame->boxed)
            draw_box(frame, i, &heights);
        for (int which = 0; which < 2 && !frame->boxed; which++)
            draw_operand(frame, i, which, &heights);
    }
    frame->y = heights.columns;
}
