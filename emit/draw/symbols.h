/* The shapes of boxes: gates, as both standards draw them, and what else a drawing is made of.
 *
 * Distinctive shapes are those of IEEE Std 91-1984 and 91a-1991; rectangles those of IEC 60617-12,
 * with the function in words of one or two characters (&, >=1, =1, 1). A circle at an input or at
 * the output inverts. Proportions of the distinctive shapes: 26 across, 32 along, the arcs of OR of
 * radius 26 (from memory). */
#ifndef SUMWRIGHT_DRAW_SYMBOLS_H
#define SUMWRIGHT_DRAW_SYMBOLS_H

#include "gates/netlist/netlist.h"

#include <stdio.h>

typedef enum { SYMBOLS_DISTINCTIVE, SYMBOLS_RECTANGULAR, SYMBOLS_COUNT } SymbolSet;

typedef enum {
    SYMBOL_FRAME,    /* a rectangle: an adder, a flag, a group */
    SYMBOL_REGISTER, /* the same with the triangle of a clock input at the left edge's lower end */
    SYMBOL_GATE,     /* of the kind `gate`, two inputs */
    SYMBOL_INVERTER, /* one input */
    SYMBOL_WEDGE,    /* a triangle whose tip is at the bottom */
    SYMBOL_HEXAGON,  /* a hexagon, flat at top and bottom */
    SYMBOL_FUNNEL,   /* wide at the top, narrow at the bottom, as multiplexers are drawn */
} Symbol;

typedef enum { SHADE_WHITE, SHADE_GREY, SHADE_BLACK } Shade; /* labels on black are white */

typedef enum { FACING_RIGHT, FACING_DOWN, FACING_LEFT } Facing; /* where the output is */

/* The size of gates and inverters, along the way they face and across it, and how far from the
 * middle their inputs are. Leads and circles are within. */
enum { GATE_ALONG = 46, GATE_ACROSS = 26, GATE_INPUT = 7 };

typedef struct {
    Symbol symbol;
    double x, y, width, height; /* left top corner; nothing of the box is outside */
    Shade shade;
    Facing facing;
    NodeKind gate;
    bool inverted[2]; /* inputs with a circle */
    uint32_t node;    /* the gate of the netlist that it is, or 0 */
    char *label;      /* belongs to the scene */
} Box;

/* Writes a box as SVG shapes, with its label. */
void symbol_write(const Box *box, SymbolSet set, FILE *out);

#endif
