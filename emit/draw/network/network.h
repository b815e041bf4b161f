/* The network picture's parts, for network*.c only: the cells that find the carries, by levels from
 * the top down, column 0 at the right; above them the operand row and the columns, below them the
 * sums. Wires go down in the columns and across in the channels between the levels, each net on a
 * track of its own. */
#ifndef SUMWRIGHT_DRAW_NETWORK_NETWORK_H
#define SUMWRIGHT_DRAW_NETWORK_NETWORK_H

#include "draw/draw.h"
#include "draw/values.h"
#include "gates/build.h"

enum {
    NETWORK_CELL = 24,     /* a cell's height */
    NETWORK_COLUMN = 30,   /* the height of a column's box */
    NETWORK_TRACK = 6,     /* from track to track */
    NETWORK_VALUES = 16,   /* room for levels below a row of cells */
    NETWORK_NAMES = 16,    /* and for the carries' names above the sums */
    NETWORK_LOW_PORT = 9,  /* from a cell's middle to where its second input enters */
    NETWORK_PORTS = 4,     /* from port to port where there are more */
    NETWORK_SHOWN = 12,    /* columns shown at either end where some are left out */
    NETWORK_OMITTED = 200, /* the room that stands for those */
    NETWORK_DASHES = 30,   /* how far wires go into it */
    NETWORK_LEFT = 140,    /* from the highest column to the flags */
    NETWORK_NOWHERE = -1,  /* the row of a cell that is not shown */
};

/* How an operand comes to the columns. */
typedef enum {
    COMES_NOT,      /* it is a constant, or nobody reads it */
    COMES_STRAIGHT, /* from its pin */
    COMES_INVERTED, /* turned over, always */
    COMES_TURNED,   /* turned over by the one control line */
    COMES_CHOSEN    /* some other way */
} Coming;

/* One connection, to a port of a cell, a sum, or out of the core. */
typedef struct {
    uint32_t source; /* a cell */
    int row;         /* of what it leads to; row_count + 1: the sums */
    double x;        /* of the port */
    bool straight;   /* down in its column */
    bool beside;     /* down beside its column, because cells are in the way */
    bool taps;       /* to the flags only: there is no such sum */
    bool leaves;     /* as the carry out of the last column, */
    bool goes_on;    /* or among columns that are not shown */
    bool comes;      /* from among them */
    bool heavy;
    uint32_t trunk; /* the track in the channel above the row; unused where straight */
} Edge;

/* What a net has on a track of the channel above a row. */
typedef struct {
    uint32_t source;
    int row;
    double from, left, right; /* where its spine comes down, and its ends */
    int track;
} Trunk;

typedef struct {
    const Unit *unit;
    const Working *example; /* or NULL */
    Scene *scene;
    Netlist netlist;
    uint64_t *values; /* or NULL */
    Literal *pin_a;   /* the inputs; those of b are LITERAL_NONE where there is none */
    Literal *pin_b;
    Literal line; /* PIN_LINE, or LITERAL_NONE */

    unsigned low_end;    /* columns 0 ... low_end - 1 and high_start ... are shown */
    unsigned high_start; /* the width where all are shown */
    double half_cell, lane, pitch;
    int row_count;   /* rows of cells; row 0 are the columns */
    int *row;        /* of each cell, or NETWORK_NOWHERE */
    unsigned *level; /* of each row */
    double *top;     /* of each row, and of the sums */
    double *channel; /* where the tracks above it begin */
    int *tracks;
    bool *on_path; /* of each cell: a carry that is 1 comes by it */
    Edge *edge;
    uint32_t edge_count, edge_room;
    Trunk *trunk;
    uint32_t trunk_count;

    Coming comes_a, comes_b;
    bool has_control;                  /* a box that decodes the control pins */
    double x_port, y_port, plain_port; /* where operands enter a column, from its middle */
    double operands;                   /* y of the operand row's middle; 0: there is none */
    double columns_top;                /* y of the columns' boxes */
    double tap;        /* y where the carry into the sign column turns off to the flags */
    double last_track; /* y where the last carry leaves */
    double y;          /* where the next thing goes */
} Network;

bool network_shows(const Network *network, unsigned column);

/* The middle of a column; -1: of the first carry. */
double network_x(const Network *network, int column);
double network_left(const Network *network); /* of the highest column */

/* What the wire of a cell is as a net. */
Net network_net(const CoreCell *cell);

bool network_level(const Network *network, Literal literal); /* there is an example */

/* Is this wire there, and no constant? */
static inline bool network_varies(Literal literal) {
    return literal != LITERAL_NONE && !literal_is_constant(literal);
}

/* Is any carry no constant? */
bool network_carries(const Network *network);

/* A straight wire downward. */
void network_lead(const Network *network, Net net, WireStyle style, double x, double from,
                  double to);

/* A literal's level on the right of a wire at x, with an example. */
void network_value_beside(const Network *network, Literal literal, double x, double y);

/* network_plan.c: which cells are shown in which rows, and the path of the carries. */
void network_plan(Network *network);

/* network_connect.c: the connections, their tracks, and how high rows are (network->top from row 1
 * on). */
void network_connect(Network *network);
void network_place_rows(Network *network);

/* The column of a cell; the lower edge of its box; where a connection's wire comes down to its
 * track; the track of a net above a row, and its height; and how far what is left out reaches on
 * its left. */
int network_column_of(const Network *network, uint32_t cell);
double network_bottom_of(const Network *network, uint32_t cell);
double network_spine(const Network *network, const Edge *edge);
const Trunk *network_trunk_of(const Network *network, int row, uint32_t source);
double network_track_y(const Network *network, const Trunk *trunk);
double network_gap_left(const Network *network);

/* network_wires.c: the wires between the cells, and the cells. */
void network_draw_wires(Network *network);

/* network_top.c: pins, operand row, control lines, columns. */
void network_choose_operands(Network *network);
void network_draw_top(Network *network);

/* network_bottom.c: sums and the result. A box across the columns at network->y, which moves past
 * it. */
void network_draw_bottom(Network *network);
void network_draw_across(Network *network, Symbol symbol, const char *label);

/* Is the carry into the column shown: read by its sum, or there to be compared? */
bool network_enters(const Network *network, unsigned column);

/* network_flags.c: the box of the flags, if there is any; its lower edge, or 0. Is the carry into
 * the sign column compared? The literal of an output pin, or LITERAL_NONE. */
double network_draw_flags(Network *network);
bool network_taps_sign(const Network *network);
Literal network_output(const Network *network, Pin pin, unsigned bit);

/* network_notes.c: the groups behind, and the legend below; the picture in words, which the caller
 * frees. */
void network_draw_groups(Network *network);
void network_draw_notes(Network *network);
char *network_describe(const Network *network);

/* How a kind of cell is drawn. */
Box network_box(const Network *network, const CoreCell *cell, double x, double y);

#endif
