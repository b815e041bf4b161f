/* See symbols.h. A gate is drawn in coordinates of its own, u along the way it faces and v across,
 * and turned on its way out. */
#include "draw/symbols.h"

#include "write/svg.h"

#include <string.h>

enum {
    LEAD = 7,  /* from a gate's edge to its body, on both sides */
    BODY = 32, /* of a gate, along */
    BULGE = 4, /* of the back of OR, about */
};

static const double circle_radius = 3;

/* From the gate's own coordinates to the page's. */
static void turn(const Box *box, double u, double v, double *x, double *y) {
    bool down = box->facing == FACING_DOWN;
    *x = down ? box->x + v : box->facing == FACING_RIGHT ? box->x + u : box->x + box->width - u;
    *y = down ? box->y + u : box->y + v;
}

static double input_place(const Box *box, int which) {
    double offset = box->symbol == SYMBOL_INVERTER ? 0 : which == 0 ? -GATE_INPUT : GATE_INPUT;
    return GATE_ACROSS / 2.0 + offset;
}

/* ---- shapes in the gate's own coordinates -------------------------------------------------- */

static void step(const Box *box, FILE *out, char letter, double u, double v) {
    double x, y;
    turn(box, u, v, &x, &y);
    svg_to(out, letter, x, y);
}

static void curve(const Box *box, FILE *out, double u1, double v1, double u2, double v2, double u,
                  double v) {
    step(box, out, 'C', u1, v1);
    step(box, out, ' ', u2, v2);
    step(box, out, ' ', u, v);
}

static void lead(const Box *box, FILE *out, double u1, double u2, double v) {
    double x1, y1, x2, y2;
    turn(box, u1, v, &x1, &y1);
    turn(box, u2, v, &x2, &y2);
    svg_line(out, x1, y1, x2, y2, "stroke=\"black\"");
}

static void circle(const Box *box, FILE *out, double u, double v) {
    double x, y;
    turn(box, u, v, &x, &y);
    svg_circle(out, x, y, circle_radius, "fill=\"white\" stroke=\"black\"");
}

static const char body[] = "fill=\"white\" stroke=\"black\" stroke-width=\"1.4\"";

/* Half a circle at the front. */
static void draw_and(const Box *box, FILE *out) {
    const double from = LEAD, mid = LEAD + BODY - 13, tip = LEAD + BODY, k = 7.18;
    svg_path(out, body);
    step(box, out, 'M', from, 0);
    step(box, out, 'L', mid, 0);
    curve(box, out, mid + k, 0, tip, 13 - k, tip, 13);
    curve(box, out, tip, 13 + k, mid + k, 26, mid, 26);
    step(box, out, 'L', from, 26);
    svg_path_end(out, true);
}

/* The hollow back of OR, from the bottom up (v 26 to 0), shifted along. */
static void back(const Box *box, FILE *out, double u) {
    curve(box, out, u + BULGE * 1.34, 18, u + BULGE * 1.34, 8, u, 0);
}

static void draw_or(const Box *box, FILE *out) {
    const double from = LEAD, tip = LEAD + BODY;
    svg_path(out, body);
    step(box, out, 'M', from, 0);
    step(box, out, 'L', from + 10, 0);
    curve(box, out, from + 19.3, 0, from + 27.6, 4.9, tip, 13);
    curve(box, out, from + 27.6, 21.1, from + 19.3, 26, from + 10, 26);
    step(box, out, 'L', from, 26);
    back(box, out, from);
    svg_path_end(out, true);
}

static void draw_second_back(const Box *box, FILE *out) {
    svg_path(out, "fill=\"none\" stroke=\"black\" stroke-width=\"1.4\"");
    step(box, out, 'M', LEAD - 5, 26);
    back(box, out, LEAD - 5);
    svg_path_end(out, false);
}

static void draw_triangle(const Box *box, FILE *out) {
    svg_path(out, body);
    step(box, out, 'M', LEAD, 0);
    step(box, out, 'L', LEAD + BODY, 13);
    step(box, out, 'L', LEAD, 26);
    svg_path_end(out, true);
}

/* A rectangle with its function, upright whichever way it faces. */
static void draw_rectangle(const Box *box, FILE *out, const char *function) {
    double x, y, x2, y2;
    turn(box, LEAD, 0, &x, &y);
    turn(box, LEAD + BODY, GATE_ACROSS, &x2, &y2);
    svg_rect(out, x < x2 ? x : x2, y, x < x2 ? x2 - x : x - x2, y2 - y, body);
    svg_text(out, (x + x2) / 2, (y + y2) / 2 + 4, "text-anchor=\"middle\"", "%s", function);
}

/* ---- gates --------------------------------------------------------------------------------- */

/* A gate is a plain one, with a circle at its output or without. */
static const struct {
    NodeKind plain;
    bool inverts;
} gates[NODE_KIND_COUNT] = {
    [NODE_AND] = {NODE_AND, false}, [NODE_OR] = {NODE_OR, false}, [NODE_XOR] = {NODE_XOR, false},
    [NODE_NAND] = {NODE_AND, true}, [NODE_NOR] = {NODE_OR, true}, [NODE_XNOR] = {NODE_XOR, true},
};

static void draw_body(const Box *box, SymbolSet set, FILE *out) {
    NodeKind kind = gates[box->gate].plain;
    bool inverter = box->symbol == SYMBOL_INVERTER;
    if (set == SYMBOLS_RECTANGULAR)
        draw_rectangle(box, out,
                       inverter           ? "1"
                       : kind == NODE_AND ? "&"
                       : kind == NODE_OR  ? "\xE2\x89\xA5" /* greater or equal */ "1"
                                          : "=1");
    else if (inverter)
        draw_triangle(box, out);
    else if (kind == NODE_AND)
        draw_and(box, out);
    else
        draw_or(box, out);
    if (set == SYMBOLS_DISTINCTIVE && !inverter && kind == NODE_XOR)
        draw_second_back(box, out);
}

/* How far behind a gate's corners the back is where its inputs are. */
static double hollow(const Box *box, SymbolSet set) {
    bool hollows = set == SYMBOLS_DISTINCTIVE && box->symbol == SYMBOL_GATE;
    NodeKind kind = gates[box->gate].plain;
    return !hollows || kind == NODE_AND ? 0 : kind == NODE_OR ? 3 : -2;
}

static void draw_gate(const Box *box, SymbolSet set, FILE *out) {
    const double from = LEAD + hollow(box, set);
    int inputs = box->symbol == SYMBOL_INVERTER ? 1 : 2;
    for (int which = 0; which < inputs; which++)
        lead(box, out, 0, from, input_place(box, which));
    lead(box, out, LEAD + BODY, GATE_ALONG, GATE_ACROSS / 2.0);
    draw_body(box, set, out);
    for (int which = 0; which < inputs; which++)
        if (box->inverted[which])
            circle(box, out, from - circle_radius, input_place(box, which));
    if (box->symbol == SYMBOL_INVERTER || gates[box->gate].inverts)
        circle(box, out, LEAD + BODY + circle_radius, GATE_ACROSS / 2.0);
}

/* ---- the others ---------------------------------------------------------------------------- */

static const char *ground(Shade shade) {
    static const char *const grounds[] = {
        [SHADE_WHITE] = "fill=\"white\" stroke=\"black\" stroke-width=\"1.4\"",
        [SHADE_GREY] = "fill=\"#d8d8d8\" stroke=\"black\" stroke-width=\"1.4\"",
        [SHADE_BLACK] = "fill=\"black\" stroke=\"black\" stroke-width=\"1.4\""};
    return grounds[shade];
}

/* Corners that lie on the box's edges: where along the top, at the sides halfway down, and along
 * the bottom, as parts of the width. */
static void draw_polygon(const Box *box, double top, double side, double bottom, FILE *out) {
    const double right = box->x + box->width, end = box->y + box->height;
    const double middle = box->y + box->height / 2;
    svg_path(out, ground(box->shade));
    svg_to(out, 'M', box->x + box->width * top, box->y);
    svg_to(out, 'L', right - box->width * top, box->y);
    svg_to(out, 'L', right - box->width * side, middle);
    svg_to(out, 'L', right - box->width * bottom, end);
    svg_to(out, 'L', box->x + box->width * bottom, end);
    svg_to(out, 'L', box->x + box->width * side, middle);
    svg_path_end(out, true);
}

static void draw_clock_triangle(const Box *box, FILE *out) {
    const double y = box->y + box->height - 9;
    bool left = box->facing == FACING_LEFT;
    const double edge = left ? box->x + box->width : box->x, tip = left ? edge - 8 : edge + 8;
    svg_path(out, "fill=\"none\" stroke=\"black\"");
    svg_to(out, 'M', edge, y - 5);
    svg_to(out, 'L', tip, y);
    svg_to(out, 'L', edge, y + 5);
    svg_path_end(out, false);
}

static void draw_label(const Box *box, FILE *out) {
    int lines = 1;
    for (const char *c = box->label; *c != '\0'; c++)
        lines += *c == '\n';
    double x = box->x + box->width / 2, y = box->y + box->height / 2 + 4 - (lines - 1) * 7.0;
    const char *attributes = box->shade == SHADE_BLACK ? "text-anchor=\"middle\" fill=\"white\""
                                                       : "text-anchor=\"middle\"";
    for (const char *line = box->label; line[0] != '\0';) {
        size_t length = strcspn(line, "\n");
        svg_text(out, x, y, attributes, "%.*s", (int)length, line);
        y += 14;
        line += length + (line[length] == '\n');
    }
}

void symbol_write(const Box *box, SymbolSet set, FILE *out) {
    switch (box->symbol) {
    case SYMBOL_GATE:
    case SYMBOL_INVERTER:
        draw_gate(box, set, out);
        break;
    case SYMBOL_WEDGE:
        draw_polygon(box, 0, 0.25, 0.5, out);
        break;
    case SYMBOL_HEXAGON:
        draw_polygon(box, 0.17, 0, 0.17, out);
        break;
    case SYMBOL_FUNNEL:
        draw_polygon(box, 0, 0.14, 0.28, out);
        break;
    case SYMBOL_FRAME:
    case SYMBOL_REGISTER:
        svg_rect(out, box->x, box->y, box->width, box->height, ground(box->shade));
        if (box->symbol == SYMBOL_REGISTER)
            draw_clock_triangle(box, out);
    }
    draw_label(box, out);
}
