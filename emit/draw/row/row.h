/* The row picture's parts, for row*.c only: an adder box a column, column 0 at the right, in bands
 * of columns, the lowest band first. Above the boxes the operand row with its control lines, which
 * come from the right; on their left the flags; below them the result. */
#ifndef SUMWRIGHT_DRAW_ROW_ROW_H
#define SUMWRIGHT_DRAW_ROW_ROW_H

#include "draw/draw.h"
#include "draw/values.h"
#include "gates/build.h"

enum {
    ROW_BAND = 16,       /* columns side by side at most */
    ROW_PITCH = 84,      /* from column to column; */
    ROW_PITCH_WIDE = 96, /* where their numbers are longer */
    ROW_BOX = 52,        /* an adder's width */
    ROW_BOX_HEIGHT = 44,
    ROW_OPERAND = 17, /* the operands' wires, left and right of the column's middle */
    ROW_LINES_MAX = 3,
    ROW_LINE_GAP = 16,
    ROW_TRACK = 35, /* of the carry into the sign column, below the boxes' bottom */
};

/* A control line across the band, and what reads it. */
typedef struct {
    Literal literal;
    bool selects_b; /* the AND gates of b; else the inverting gates, or the adders themselves */
    double y;
    double left; /* where the leftmost reader is */
} RowLine;

typedef struct {
    const Unit *unit;
    Scene *scene;
    Build build;
    uint64_t *values; /* or NULL */
    Literal *pin_b;
    bool borrow_form;  /* the adders work on a chain of carries or borrows */
    unsigned low, top; /* the columns of the band being drawn: low ... top - 1 */
    RowLine line[ROW_LINES_MAX];
    int line_count;
    double y;      /* where the band's next row begins */
    double adders; /* the middle of the adder boxes */
} Row;

/* From column to column. */
static inline double row_pitch(const Row *row) {
    return row->unit->width > DRAW_COLUMNS_MAX ? ROW_PITCH_WIDE : ROW_PITCH;
}

/* The middle of a column of the band. */
static inline double row_middle(const Row *row, unsigned column) {
    return -row_pitch(row) * ((double)(column - row->low) + 0.5);
}

static inline double row_left(const Row *row) {
    return -row_pitch(row) * (double)(row->top - row->low);
}

/* A signal that the operand row asks for: constant, or on a line? */
static inline Literal row_signal(const Row *row, Signal signal) {
    return row->build.operands.signal[signal];
}

static inline bool row_varies(Literal literal) {
    return !literal_is_constant(literal);
}

/* The level of a literal in the example; there is one. */
static inline bool row_level(const Row *row, Literal literal) {
    return values_level(row->values, literal);
}

/* A straight wire downward, with its level beside its start. */
void row_lead(Row *row, Literal literal, double x, double from, double to);

/* The level of a literal above a wire across, begun at x. */
void row_level_above(Row *row, Literal literal, double x, double y);

/* What a literal is called: a pin's name, a3, or the name of a gate; inverted: "not ...". The
 * caller frees it. */
char *row_name(const Row *row, Literal literal);

/* Where the rows of gates stand in a band, by what there is in them. */
typedef struct {
    bool selects, inverts;
    double pins;   /* where the pins' wires begin */
    double select; /* tops of the gates */
    double invert;
    double adder;
} RowPlaces;

/* row_column.c: the pins of the band, from where it begins; the heights of lines and gates; then
 * each column, and the carry that enters it (or, i being the band's top, leaves it). */
void row_draw_pins(Row *row, RowPlaces *rows);
void row_place(Row *row, RowPlaces *rows);
void row_draw_column(Row *row, const RowPlaces *rows, unsigned i);
void row_draw_carry(Row *row, unsigned i);

/* row_across.c: a box as wide as the band, where its next row begins; a register has its clock at
 * the left edge, or if it faces left at the right one. Sums, what is done to them, and the result
 * as a bar. */
void row_draw_across(Row *row, Symbol symbol, Facing facing, double height, const char *label);
void row_draw_result(Row *row);

/* The gate with this name, or LITERAL_NONE; the last one where there are several. */
Literal row_named(const Row *row, Role role);

/* row_control.c: chooses the lines, draws them across the band and, in the lowest band, where they
 * come from. The boxes' y are known by then. */
void row_choose_lines(Row *row);
void row_draw_lines(Row *row);
void row_draw_sources(Row *row);

/* row_flags.c: the flags on the left of the highest band. */
void row_draw_flags(Row *row);

/* row_notes.c: what there is to know for reading it, below; and the picture in sentences. */
void row_draw_notes(const Row *row);
char *row_describe(const Row *row);

#endif
