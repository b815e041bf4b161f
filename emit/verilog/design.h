/* A unit on its way into Verilog of operators or cells: what its text is put together from. verilog.c
 * opens it, operand_text.c, column_text.c, network_text.c and flag_text.c add their facts in this
 * order, each of those that the template of the same part names. */
#ifndef SUMWRIGHT_VERILOG_DESIGN_H
#define SUMWRIGHT_VERILOG_DESIGN_H

#include "gates/netlist/core.h"
#include "gates/operands.h"
#include "unit/unit.h"
#include "write/facts.h"

/* What a text is, so that nobody has to look into it. */
typedef enum {
    FORM_NAME,      /* a name, or a constant bit */
    FORM_INVERSE,   /* ~ and a name */
    FORM_ZEROS,     /* a word of 0s, */
    FORM_ONES,      /* of 1s, */
    FORM_FILL,      /* or of one name over and over */
    FORM_OPERATION, /* an operator between two others */
} TextForm;

typedef struct {
    const char *text; /* the design's */
    TextForm form;
} Expression;

/* The cells of a structure other than the ripple chain, in the order in which they are first used. */
enum { DESIGN_CELLS_MAX = 4 };

typedef struct {
    const Unit *unit;
    const AdderCore *core;
    const char *const *source; /* where each input pin is read */
    Facts *facts;
    bool network;     /* of such cells */
    CoreSense sense;  /* of what goes from column to column */
    const char *bits; /* of a word: "WIDTH" or the number */
    const char *sign; /* the number of its highest bit: "WIDTH-1" or the number */
    Level level[SIGNAL_COUNT];
    const char *signal[SIGNAL_COUNT];   /* a name or a constant bit */
    Expression x, y, first;             /* what the adder is given, as names where they are more */
    const char *cell[DESIGN_CELLS_MAX]; /* their templates */
    int cells;
    char **text; /* all that were put together */
    size_t texts, text_room;
} Design;

/* source: where each input pin is read; facts: those of verilog.c are there already. The design
 * has texts until design_close. */
void design_open(Design *design, const Unit *unit, const AdderCore *core,
                 const char *const source[PIN_COUNT], Facts *facts);
void design_close(Design *design);

/* A text as printf would write it; the design's. */
const char *design_text(Design *design, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* The stem, out of the way of the pins' names (see identifier.h); the same of a stem that numbers
 * follow. */
const char *design_name(Design *design, const char *stem);
const char *design_stem(Design *design, const char *stem);

/* An expression of this form; one made fit to stand beside an operator; and one's inverse. */
Expression design_expression(Design *design, TextForm form, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
const char *design_operand(Design *design, Expression expression);

Expression design_inverse(Design *design, Expression expression);

/* Notes that a cell is in use, by its template. */
void design_use(Design *design, const char *cell);

/* Is the unit written as cells of a structure other than the ripple chain? */
bool design_has_network(const Unit *unit);

/* Are the carries of the columns the complements of the addition's? */
bool design_is_inverted(const Design *design);

/* operand_text.c: facts for operands.v, operators.v and cells.v. */
void operand_text(Design *design);
/* column_text.c: facts for columns.v. */
void column_text(Design *design);
/* network_text.c: facts for the template of the structure, which it returns: "prefix.v". */
const char *network_text(Design *design);
/* The wire, or the constant, that enters a column of a network; column width: that leaves the last
 * one. */
const char *network_carry(Design *design, unsigned column);
/* flag_text.c: facts for flags.v. */
void flag_text(Design *design);

#endif
