/* The record of the adder core: which literal of a netlist is which part of it. Every netlist that
 * a unit was built into has one (Netlist.core), whatever the structure, of gates of any kind as of
 * NANDs or NORs alone; drawings, text and reports walk it and find nothing out for themselves.
 *
 * How to ask: build the netlist (build.h), then read netlist.core. A literal is in the netlist as it
 * stands, inversion bit included: LITERAL_0 and LITERAL_1 where the value is known beforehand,
 * LITERAL_NONE where there is no such wire, because nothing needs it. What every literal means is
 * written beside it; tests/unit/core_test.c holds them to it, for all structures.
 *
 *   is this gate the carry into column i?   core->carry[i] >> 1 == k, upside down if core->carry[i] & 1
 *   what are the carries between columns?   core->sense; of the addition: carry[i] XOR turned
 *   what enters column i?                   core_enters(core, i)
 *   the overflow, a flag, a control line    core->overflow, core->flag[f].plain, core->signal[s]
 *   the cells of a prefix network           core->cell, or level by level core->prefix->cell
 *
 * A carry structure is a network whatever its name: each cell joins neighbouring spans of columns,
 * and what differs is which spans, and how many at once. So one list of cells serves them all. The
 * ripple chains (ripple, fewest) have columns alone and no cells. */
#ifndef SUMWRIGHT_GATES_NETLIST_CORE_H
#define SUMWRIGHT_GATES_NETLIST_CORE_H

#include "gates/netlist/netlist.h"

#define CORE_NO_CELL UINT32_MAX /* no cell at all */

enum { CORE_INPUTS_MAX = 5 }; /* a lookahead group of four and the carry that enters it */

typedef enum {
    CORE_FIRST,  /* the carry that enters column 0, where it is no constant: generates is that */
    CORE_COLUMN, /* one column: generates, passes */
    CORE_JOIN,   /* neighbouring spans as one: generates, passes */
    CORE_CARRY,  /* the carry out of column top: generates, what its spans make of the carry that
                    enters the lowest of them, or have made without one */
    CORE_SKIP,   /* the same, past a whole group whose carries ripple beside it */
    CORE_PAIR,   /* the carry out of column top if none enters column bottom: generates; and if one
                    does: passes */
    CORE_SELECT, /* the carry out of column top, chosen from a pair */
    CORE_KIND_COUNT
} CoreKind;

/* "Carry" is here what goes from column to column, whatever its sense. */
typedef struct {
    CoreKind kind;
    int top; /* the columns that it speaks of; those of the first carry are both -1 */
    int bottom;
    unsigned level; /* cells on the longest way to it, 0 for first and columns */
    Literal generates;
    Literal passes; /* exactly one of the column's two operands is 1, or at least one */
    uint32_t in[CORE_INPUTS_MAX]; /* the cells that it reads, the highest columns first */
    int in_count;
} CoreCell;

/* Columns that a structure handles together. */
typedef struct {
    unsigned top;
    unsigned bottom;
    unsigned tier; /* 1 for a group of columns, 2 for a group of groups ... */
} CoreGroup;

/* What goes from column to column. */
typedef enum {
    CORE_CARRIES,    /* the carries of X + Y + first: turned is LITERAL_0 */
    CORE_NO_CARRIES, /* their complements: turned is LITERAL_1; */
    CORE_BORROWS,    /* the same where every operation subtracts, so that they are borrows */
    CORE_CARRIES_OR_BORROWS, /* carries in an addition, borrows in a subtraction: turned tells */
} CoreSense;

/* What enters a column. */
typedef enum { CORE_ENTERS_0, CORE_ENTERS_1, CORE_ENTERS_SIGNAL, CORE_ENTERS_UNREAD } CoreEntry;

/* A flag as its definition has it, and cleared where nothing is requested, as the pin shows it. */
typedef struct {
    Literal plain;
    Literal masked;
} CoreFlag;

struct Prefix;

typedef struct AdderCore {
    unsigned width;

    /* The adder adds X + Y + first (see operands.h). */
    Literal signal[SIGNAL_COUNT]; /* the control signals */
    Literal first;                /* what enters column 0 of that addition */
    Literal *added_x;             /* width each: bits of X */
    Literal *added_y;             /* and Y */

    CoreSense sense;
    Literal turned;  /* carry[i] XOR turned is the carry of X + Y + first */
    Literal *x;      /* width each: what a column's carry gates take, added_x XOR turned */
    Literal *y;      /* and added_y XOR turned: carry[i + 1] is the majority of x, y and carry[i] */
    Literal *half;   /* x XOR added_y, the sum but for the carry: sum is half XOR carry */
    Literal *sum;    /* bits of X + Y + first */
    Literal *carry;  /* width + 1: carry[i] enters column i, the last leaves the core */
    Literal leaving; /* the carry of X + Y + first out of the last column (1 = no borrow) */

    CoreCell *cell; /* a cell reads cells before it only */
    uint32_t cell_count;
    size_t cell_room;
    uint32_t *giver;  /* width + 1: the cell whose generates is carry[i]; CORE_NO_CELL where it is a
                         constant, or the structure has no cells */
    CoreGroup *group; /* of each tier the lowest first; none where columns are not grouped */
    uint32_t group_count;
    size_t group_room;
    struct Prefix *prefix; /* the whole prefix network that the carries come from (prefix.h), cells
                              that gates could be spared included; NULL for another structure */

    Literal overflow;          /* the last two carries differ */
    Literal below_zero;        /* the exact signed result is */
    Literal *result;           /* width: the result as delivered */
    CoreFlag flag[FLAG_COUNT]; /* LITERAL_NONE both for a flag that the unit lacks */
} AdderCore;

/* An empty record, all its literals LITERAL_NONE; goes into Netlist.core before the adder core is
 * built and belongs to the netlist from then on. */
AdderCore *core_new(unsigned width);
void core_free(AdderCore *core);
AdderCore *core_copy(const AdderCore *core);

/* A cell that reads nothing yet. */
static inline CoreCell core_cell_of(CoreKind kind, unsigned top, unsigned bottom, Literal generates,
                                    Literal passes) {
    return (CoreCell){.kind = kind,
                      .top = (int)top,
                      .bottom = (int)bottom,
                      .generates = generates,
                      .passes = passes};
}

/* Records a cell, whose level follows from what it reads; its number. A carry that is no more than
 * what one cell before it generates is no cell: the number is that one's. CORE_NO_CELL as one of
 * the inputs for one that is a constant. */
uint32_t core_cell(AdderCore *core, CoreCell cell);

/* The same for a cell of two inputs. */
uint32_t core_cell_of_two(AdderCore *core, CoreCell cell, uint32_t high, uint32_t low);

/* Records that columns top ... bottom are a group. */
void core_group(AdderCore *core, unsigned top, unsigned bottom, unsigned tier);

/* Is anything left of the cell in the finished netlist? What no output needs is not there, nor is a
 * carry that is a constant. */
bool core_cell_is_there(const CoreCell *cell);

/* Sets turned and, from it and the literal of SIGNAL_SUBTRACTING, the sense. */
void core_set_sense(AdderCore *core, Literal turned, Literal subtracting);

/* What enters column i, 0 ... width. */
CoreEntry core_enters(const AdderCore *core, unsigned i);

/* The role of the wires between columns, of a structure that is no ripple chain. */
Role core_carry_role(const AdderCore *core);

/* For who moves or replaces gates: what becomes of each literal that is no constant, LITERAL_NONE
 * if nothing does. */
typedef Literal CoreChange(Literal literal, const void *how);
void core_change(AdderCore *core, CoreChange *change, const void *how);

#endif
