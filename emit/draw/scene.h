/* A drawing as data: boxes, wires, dots, texts and marks, each with the geometry that it will have
 * on paper, so that a test can check what lies on what before anything is written.
 *
 * A drawing is made in any coordinates (pixels, x to the right, y downward) and in any order:
 *
 *     Scene scene;
 *     scene_init(&scene, SYMBOLS_DISTINCTIVE);
 *     scene_box(&scene, (Box){.symbol = SYMBOL_FRAME, .x = 0, .y = 0, .width = 44, .height = 30},
 *               "FA");
 *     scene_wire(&scene, literal, WIRE_PLAIN, 22, -20);  begins a wire,
 *     scene_to(&scene, 22, 0);                           and leads it on, straight across or down
 *     scene_value(&scene, 26, -8, ANCHOR_START, literal, true);
 *     scene_say(&scene, "addsub8", "A ripple adder-subtractor of 8 bits. ...");
 *     scene_settle(&scene);                   dots where wires join; all to where the page begins
 *     scene_write(&scene, out);
 *     scene_free(&scene);
 *
 * What the test of the geometry (tests/drawing.h) asks of every settled scene: texts overlap no
 * text, no box and no wire but one of their own net; boxes overlap no box; a wire touches a box
 * only with its ends, on the edge; wires of different nets have no stretch in common (they may
 * cross); everything is within the page. A label lies within its box.
 *
 * Wires are drawn under boxes, dots and texts; all is black, white and one grey. */
#ifndef SUMWRIGHT_DRAW_SCENE_H
#define SUMWRIGHT_DRAW_SCENE_H

#include "draw/symbols.h"
#include "gates/netlist/netlist.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

/* What a wire carries: a literal of the netlist; or a pin, for wires that are no part of it (the
 * clock, a whole bus); or LITERAL_NONE, then it is a net of its own. */
typedef uint32_t Net;

static inline Net net_of_pin(Pin pin) {
    return UINT32_C(0x80000000) | (uint32_t)pin;
}

typedef struct {
    double x, y;
} Point;

typedef enum {
    WIRE_PLAIN,
    WIRE_HEAVY,  /* on the carry path */
    WIRE_FINE,   /* beside what a drawing is about */
    WIRE_DASHED, /* goes on elsewhere: another band, columns left out */
    WIRE_FRAME,  /* no wire but a line to guide the eye: no net */
} WireStyle;

typedef struct {
    Net net;
    WireStyle style;
    uint32_t first, count; /* its corners, in Scene.point */
} Wire;

typedef struct {
    double x, y; /* where wires of one net join */
    Net net;
} Dot;

typedef enum { ANCHOR_START, ANCHOR_MIDDLE, ANCHOR_END } Anchor;

typedef enum {
    TEXT_PLAIN, /* 12 pixels */
    TEXT_SMALL, /* 10 */
    TEXT_BOLD,  /* 12, bold */
    TEXT_TITLE, /* 17, bold */
    TEXT_STYLE_COUNT
} TextStyle;

typedef struct {
    double x, y; /* of the baseline's start, middle or end */
    Anchor anchor;
    TextStyle style;
    char *text;
    Net net;    /* what it stands beside, or LITERAL_NONE */
    bool level; /* the value of that net: the text is 0 or 1 */
} Text;

typedef enum {
    MARK_COMPARED, /* a ring: one of the two carries that are compared */
    MARK_BAND,     /* a grey ground: x, y is its left top corner */
} MarkKind;

typedef struct {
    MarkKind kind;
    double x, y;          /* ring: its middle */
    double width, height; /* ring: its diameter, twice */
    Net net;              /* ring: of which carry */
} Mark;

typedef struct {
    SymbolSet symbols;
    bool bare;         /* no heading above the picture and no paragraphs below it */
    char *title;       /* a few words */
    char *description; /* sentences, for those who cannot see the drawing */
    double width, height;
    Box *box;
    Point *point;
    Wire *wire;
    Dot *dot;
    Text *text;
    Mark *mark;
    uint32_t box_count, point_count, wire_count, dot_count, text_count, mark_count;
    size_t box_room, point_room, wire_room, dot_room, text_room, mark_room;
} Scene;

/* An empty scene. Memory that runs out ends the program with STATUS_SURROUNDINGS. */
void scene_init(Scene *scene, SymbolSet symbols);
void scene_free(Scene *scene);

/* Title and description; the scene keeps copies. */
void scene_say(Scene *scene, const char *title, const char *description);

/* A box; lines of its label are parted by \n ("" for none; copied). Returns its number. */
uint32_t scene_box(Scene *scene, Box box, const char *label);

/* The same for one that is no more than a rectangle: SYMBOL_FRAME or SYMBOL_REGISTER. */
uint32_t scene_rect(Scene *scene, Symbol symbol, double x, double y, double width, double height,
                    const char *label);

/* Begins a wire, and leads it on to a next corner: x or y stays the same. A corner at the same
 * place as the one before is left out. */
void scene_wire(Scene *scene, Net net, WireStyle style, double x, double y);
void scene_to(Scene *scene, double x, double y);

/* A line of text (printf style), and the value 0 or 1 of a net. */
void scene_text(Scene *scene, double x, double y, Anchor anchor, TextStyle style,
                const char *format, ...) __attribute__((format(printf, 6, 7)));
void scene_value(Scene *scene, double x, double y, Anchor anchor, Net net, bool level);

/* The same as scene_text for a text that belongs to a net: a pin's name. */
void scene_name(Scene *scene, double x, double y, Anchor anchor, Net net, const char *format, ...)
    __attribute__((format(printf, 6, 7)));

/* Text of any length in lines of at most this width, the first with its baseline at y. Returns
 * the baseline of the line after the last. */
double scene_paragraph(Scene *scene, double x, double y, double width, TextStyle style,
                       const char *text);

/* Takes back all texts but the first so many. */
void scene_forget_texts(Scene *scene, uint32_t kept);

void scene_mark(Scene *scene, Mark mark);

/* The size in pixels of a style's letters; the height of a line; and the rectangle that a text
 * takes. */
double scene_text_size(TextStyle style);
enum { SCENE_LINE = 18, SCENE_MARGIN = 24 };
typedef struct {
    double left, top, right, bottom;
} Extent;
Extent scene_text_extent(const Text *text);

/* Around everything that is drawn so far. */
Extent scene_extent(const Scene *scene);

/* Puts a dot wherever wires of one net go more than two ways. Moves everything so that the page's margin is left all around, and sets width and height. */
void scene_settle(Scene *scene);

/* Writes a settled scene as SVG 1.1. A write error on out is for its owner to detect. */
void scene_write(const Scene *scene, FILE *out);

#endif
