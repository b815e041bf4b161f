/* Where in a netlist the parts of the adder core are: its columns, the cells of the structure that
 * finds its carries, and the sums, each with its literals. For drawings; a netlist that nobody
 * draws has none and does no work for them.
 *
 * A carry structure is a network whatever its name: each cell joins neighbouring spans of columns,
 * and what differs is which spans, and how many at once. So one record serves them all. What is
 * true of a cell's literals is written beside its kind; tests/unit/landmarks_test.c holds them to
 * it. "Carry" here is the carry of the core, which some structures turn over in a subtraction (see
 * columns.h); turned tells. */
#ifndef SUMWRIGHT_GATES_LANDMARKS_H
#define SUMWRIGHT_GATES_LANDMARKS_H

#include "gates/netlist/netlist.h"

#define LANDMARK_NONE UINT32_MAX /* no cell at all */

enum { LANDMARK_INPUTS_MAX = 5 }; /* a lookahead group of four and the carry that enters it */

typedef enum {
    LANDMARK_FIRST,  /* the first carry, where it is no constant: generates is the carry */
    LANDMARK_COLUMN, /* one column: generates, passes */
    LANDMARK_JOIN,   /* neighbouring spans as one: generates, passes */
    LANDMARK_CARRY,  /* the carry out of column top: generates, what its spans make of the carry
                        that enters the lowest of them, or have made without one */
    LANDMARK_SKIP,   /* the same, past a whole group whose carries ripple beside it */
    LANDMARK_PAIR,   /* the carry out of column top if none enters column bottom: generates; and if
                        one does: passes */
    LANDMARK_SELECT, /* the carry out of column top, chosen from a pair */
    LANDMARK_KIND_COUNT
} LandmarkKind;

typedef struct {
    LandmarkKind kind;
    int top; /* the columns that it speaks of; those of the first carry are both -1 */
    int bottom;
    unsigned level;    /* cells on the longest way to it, 0 for first and columns */
    Literal generates; /* LITERAL_NONE: there is no such wire, nobody reads it */
    Literal passes;
    uint32_t in[LANDMARK_INPUTS_MAX]; /* the cells that it reads, the highest columns first */
    int in_count;
} Landmark;

/* Columns that a structure handles together. */
typedef struct {
    unsigned top;
    unsigned bottom;
    unsigned tier; /* 1 for a group of columns, 2 for a group of groups ... */
} LandmarkGroup;

typedef struct Landmarks {
    unsigned width;
    Landmark *cell; /* a cell reads cells before it only */
    uint32_t cell_count;
    uint32_t cell_room;
    LandmarkGroup *group; /* of each tier the lowest first; none where columns are not grouped */
    uint32_t group_count;
    uint32_t group_room;
    Literal *x; /* width each: what enters a column, */
    Literal *y;
    Literal *plain;  /* x before it is turned over, */
    Literal *half;   /* plain XOR y, its sum but for the carry, */
    Literal *sum;    /* and its sum */
    Literal *carry;  /* width + 1: carry[i] enters column i, the last leaves the core */
    uint32_t *giver; /* width + 1: the cell whose generates is carry[i]; LANDMARK_NONE where it is
                        a constant */
    Literal turned;  /* carry[i] XOR turned is the carry of the addition */
} Landmarks;

/* An empty record; put it into Netlist.landmarks before the adder core is built, and read it once
 * the netlist is finished. Free with landmarks_free, and not before the netlist. */
void landmarks_init(Landmarks *landmarks, unsigned width);
void landmarks_free(Landmarks *landmarks);

/* A cell that reads nothing yet. */
static inline Landmark landmark_of(LandmarkKind kind, unsigned top, unsigned bottom,
                                   Literal generates, Literal passes) {
    return (Landmark){.kind = kind,
                      .top = (int)top,
                      .bottom = (int)bottom,
                      .generates = generates,
                      .passes = passes};
}

/* Records a cell, whose level follows from what it reads; its number. A carry that is no more than
 * what one cell before it generates is no cell: the number is that one's. LANDMARK_NONE where
 * nothing is recorded, and as one of the inputs for one that is a constant. */
uint32_t landmarks_cell(Netlist *netlist, Landmark cell);

/* The same for a cell of two inputs. */
uint32_t landmarks_cell_of_two(Netlist *netlist, Landmark cell, uint32_t high, uint32_t low);

/* Records that columns top ... bottom are a group. */
void landmarks_group(Netlist *netlist, unsigned top, unsigned bottom, unsigned tier);

/* Is anything left of the cell in the finished netlist? What no output needs is not there, nor is a
 * carry that is a constant. */
bool landmark_is_there(const Landmark *cell);

/* For netlist_finish: the nodes have moved, place[k] being where node k is now, 0 for nowhere; and
 * the gates with flipped[k] give their complements now. */
void landmarks_move(Landmarks *landmarks, const uint32_t *place);
void landmarks_flip(Landmarks *landmarks, const bool *flipped);

#endif
