/* The frame that all pictures of a unit share. Every picture has the unit's netlist, the record of
 * its adder core, and the levels of an example; names, levels and carries on wires come from these.
 *
 * Row and network are pictures of columns, column 0 at the right, and the same around their core:
 *
 *   pins, registers, operand row with its control lines      operands.c
 *   where the lines and the first carry come from, right     sources.c
 *   ... the core, drawn by the picture itself ...
 *   saturation, masking, registers, the result               result.c
 *   a box a flag, left                                       flags.c
 *
 * A picture of columns says which columns it shows and where, what is done to its operands, and
 * where its first and last carries are; it calls the parts from the top down, `y` moving along. */
#ifndef SUMWRIGHT_DRAW_FRAME_FRAME_H
#define SUMWRIGHT_DRAW_FRAME_FRAME_H

#include "draw/scene.h"
#include "gates/netlist/core.h"
#include "work/working.h"

enum { FRAME_LINES_MAX = 4, FRAME_NAME = 24, FRAME_CHANNEL = 170 };

/* A control line across the columns, and what reads it. */
typedef struct {
    Literal literal; /* LITERAL_NONE: several signals in one line, see Frame.boxed */
    bool selects;    /* the AND gates of b; else the inverting gates, or the columns themselves */
    double y;
    double left; /* where the leftmost reader is */
} FrameLine;

/* What is done to an operand in every column on its way from its pin. */
typedef struct {
    Literal select; /* LITERAL_1: nothing; else an AND gate with that line; LITERAL_0: not read */
    Literal invert; /* LITERAL_0: nothing; LITERAL_1: an inverter; else an XOR with that line */
    const Literal *out; /* what enters each column; LITERAL_NONE where nothing reads it */
    double port;        /* where it enters, from the column's middle */
} FrameOperand;

typedef struct {
    const Unit *unit;
    const Working *example; /* or NULL */
    Scene *scene;
    const Netlist *netlist;
    const AdderCore *core;
    uint64_t *values;   /* a node's level in the example, bit 0; or NULL */
    bool *drawn;        /* width + 1: is the carry into a column drawn as a wire of its own? */
    bool rings;         /* the picture has rings around the two carries that are compared */
    unsigned *carry_of; /* of a node that is the carry into column i, or its complement: i + 1 */

    /* Pictures of columns. */
    Literal *pin[2];            /* the bits of a and b; LITERAL_NONE where there is no pin */
    unsigned low, top;          /* columns low ... top - 1 are drawn, */
    unsigned gap_low, gap_high; /* but for gap_low ... gap_high - 1, which are left out */
    double pitch;               /* from column to column */
    double half;                /* from a column's middle to the end of what lies across */
    double result_port;         /* where its sum leaves a column, from its middle */
    FrameOperand operand[2];
    bool boxed; /* what is done to the operands is drawn as a box, not gate by gate */
    bool plain; /* the columns want a, too, as it was before it was turned over; */
    double plain_port;
    FrameLine line[FRAME_LINES_MAX];
    int line_count;
    double first_y; /* where the first carry enters, from the right */
    double y;       /* where the next thing goes */
} Frame;

/* Which carries a picture draws as wires of their own. */
typedef enum { CARRIES_ALL, CARRIES_THAT_VARY, CARRIES_OF_GATES } CarriesDrawn;

/* Fills in all but the columns. frame_close frees what the frame owns; the netlist is not its. */
void frame_open(Frame *frame, const Unit *unit, const Working *example, const Netlist *netlist,
                CarriesDrawn carries, Scene *scene);
void frame_close(Frame *frame);

/* Is this wire there, and no constant? */
static inline bool frame_varies(Literal literal) {
    return literal != LITERAL_NONE && !literal_is_constant(literal);
}

static inline bool frame_is_gate(const Frame *frame, Literal literal) {
    return frame_varies(literal) && netlist_is_gate(&frame->netlist->nodes[literal_node(literal)]);
}

/* The level of a literal in the example; there is one. */
static inline bool frame_level(const Frame *frame, Literal literal) {
    return (netlist_value(frame->values, literal) & 1) != 0;
}

/* The literal of an input pin's bit, LITERAL_NONE where there is no such pin. */
Literal frame_input(const Frame *frame, Pin pin, unsigned bit);

/* The carry that enters a column; beyond the last one the carry out of it, of the core's chain or,
 * where it has another beside that, the carry of the addition. */
Literal frame_carry(const Frame *frame, unsigned column);

/* Is the carry of the core 1? By the column that it enters, and by its literal; no for any other
 * literal, and without an example. */
bool frame_carry_is_1(const Frame *frame, unsigned column);
WireStyle frame_style(const Frame *frame, Literal literal);

/* What a literal is called: a3, a pin's name, c3 for a carry, what a gate means; "not ..." for the
 * inverse. At most FRAME_NAME characters. The caller frees it. */
char *frame_name(const Frame *frame, Literal literal);

/* A straight wire downward; the same with its level beside its start; a level beside a wire
 * downward, or above one across; each level only with an example. */
void frame_wire(const Frame *frame, Net net, WireStyle style, double x, double from, double to);
void frame_lead(const Frame *frame, Literal literal, double x, double from, double to);
void frame_beside(const Frame *frame, Literal literal, double x, double y);
void frame_above(const Frame *frame, Literal literal, double x, double y);

/* The level of a literal that is the carry into a column, or its complement: ringed where it is one
 * of two that are compared. */
void frame_carry_level(const Frame *frame, unsigned column, Literal literal, double x, double y,
                       Anchor anchor);

/* Are the two last carries both of the core's chain, so that they can be compared? There are rings
 * where both are drawn, too. */
bool frame_compares(const Frame *frame);

/* A wire across from an edge to the left or right, with a name, if any, at its free end. */
void frame_stub(const Frame *frame, Net net, const char *name, double edge, double end, double y);

/* A gate that faces down, its output at x: of this kind, and the one that makes this literal, if any
 * does. */
void frame_gate(const Frame *frame, Symbol symbol, NodeKind kind, Literal gate, double x,
                double top);

/* A register that wires pass across, with its clock on the left of its lower end: a wire so long, and
 * the clock's name where there is room for it. */
void frame_register(const Frame *frame, Extent extent, double wire);

/* ---- pictures of columns ----------------------------------------------------------------------- */

bool frame_shows(const Frame *frame, unsigned column);
double frame_x(const Frame *frame, unsigned column); /* the middle of a column */
double frame_left(const Frame *frame);               /* of what lies across the columns */
double frame_right(const Frame *frame);

/* A box across the columns at y, which moves past it. A register has its clock at the left edge, or
 * if it faces left at the right one. */
void frame_across(Frame *frame, Symbol symbol, Facing facing, double height, const char *label);

/* operands.c: a control line, unless there is one for the same already; pins and registers; then
 * the operand row, down to where the columns begin. A column that reads a line itself: from the line
 * to where. Last the lines, as far as they are read. */
void frame_add_line(Frame *frame, Literal literal, bool selects);
void frame_draw_pins(Frame *frame);
void frame_draw_operands(Frame *frame);
void frame_tap(Frame *frame, FrameLine *line, double x, double to);
void frame_draw_lines(Frame *frame);

/* sources.c: do gates decode the control pins? Where the lines come from, and the first carry, which enters the core at x, first_y
 * (LITERAL_NONE: none does). */
bool frame_decodes(const Frame *frame);
void frame_draw_sources(Frame *frame, Literal first, double x);

/* result.c: from the sums, which have come down to y, to the result; y moves on. */
void frame_draw_result(Frame *frame);

/* flags.c: a box a flag, from last.y down. last and sign are where the carries out of the sign
 * column and into it have come to on their way to the left. */
void frame_draw_flags(Frame *frame, Point last, Point sign);

/* ---- words, below all that the scene shows so far ----------------------------------------------- */

/* What c3 is, in every operation; what the carries of the core are in the example: "carries",
 * "borrows", "carries turned over". */
void frame_note_sense(const Frame *frame);
const char *frame_carry_words(const Frame *frame);

/* Which wires are heavy, and the longest run of carries of 1; the two that are ringed. brought: is
 * the way to where a carry is read heavy, too? */
void frame_note_path(const Frame *frame, bool brought);
void frame_note_compared(const Frame *frame);

/* What is done to the result on its way out; registers, and pins that have names of their own. */
void frame_note_result(const Frame *frame);
void frame_note_pins(const Frame *frame);

#endif
