/* The network picture's parts: the cells that find the carries, by levels from the top down, column
 * 0 at the right; above them the columns, below them the sums. Wires go down in the columns and
 * across in the channels between the levels, each net on a track of its own. What is around them is
 * the frame's.
 *
 *   plan     which cells are shown in which rows, and the path of the carries    plan.c
 *   connect  the connections and their tracks                                    connect.c
 *   wires    on paper, with the cells and the sums                               wires.c
 *   notes    groups behind, levels beside, the legend below                      notes.c
 *   draw     the steps                                                           network.c */
#ifndef SUMWRIGHT_DRAW_NETWORK_NETWORK_H
#define SUMWRIGHT_DRAW_NETWORK_NETWORK_H

#include "draw/frame/frame.h"
#include "draw/frame/tracks.h"

enum {
    NETWORK_CELL = 24,    /* a cell's height */
    NETWORK_COLUMN = 30,  /* the height of a column's box */
    NETWORK_TRACK = 6,    /* from track to track */
    NETWORK_FIRST_X = 16, /* where the first carry comes down */
    NETWORK_DASHES = 30,  /* how far wires go into what is left out */
    NETWORK_NOWHERE = -1, /* the row of a cell that is not shown */
};

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
} Edge;

typedef struct {
    Frame frame;
    double half_cell, lane; /* beside the cells, from the middle of a column */
    int row_count;          /* rows of cells; row 0 are the columns */
    int *row;               /* of each cell, or NETWORK_NOWHERE */
    unsigned *level;        /* of each row */
    double *top;            /* of each row, and of the sums */
    double *channel;        /* where the tracks above it begin */
    int *tracks;            /* how many */
    bool *on_path;          /* of each cell: a carry that is 1 comes by it */
    Edge *edge;
    size_t edge_count, edge_room;
    Span *
        trunk; /* what a net has of the tracks above a row: the place is the row, the owner a cell */
    uint32_t trunk_count;
    double columns_top; /* y of the columns' boxes */
    double tap;         /* y where the carry into the sign column turns off to the flags */
    double last_track;  /* y where the last carry leaves; 0: there is none */
} Network;

/* The middle of a column; -1: of the first carry. */
static inline double network_x(const Network *network, int column) {
    return column < 0 ? NETWORK_FIRST_X : frame_x(&network->frame, (unsigned)column);
}

static inline const CoreCell *network_cell(const Network *network, uint32_t cell) {
    return &network->frame.core->cell[cell];
}

/* What the wire of a cell is as a net. */
static inline Net network_net(const Network *network, uint32_t cell) {
    const CoreCell *of = network_cell(network, cell);
    return frame_varies(of->generates) ? of->generates : of->passes;
}

/* Is any carry no constant? Where the carry into a column comes to its sum. */
bool network_carries(const Network *network);
double network_sum_port(const Network *network, unsigned column);

void network_plan(Network *network);

/* Needs columns_top; says how high everything is. */
void network_connect(Network *network);

/* The lower edge of a cell's box; where a connection's wire comes down to its track; the height of a
 * net's track above a row; and how far what is left out reaches on its left. */
double network_bottom_of(const Network *network, uint32_t cell);
double network_spine(const Network *network, const Edge *edge);
const Span *network_trunk(const Network *network, int row, uint32_t source);
double network_track_y(const Network *network, const Span *trunk);
double network_gap_left(const Network *network);

void network_draw_columns(Network *network);
void network_draw_wires(Network *network);
void network_draw_sums(Network *network);

/* How a kind of cell is drawn. */
Box network_box(const Network *network, const CoreCell *cell, double x, double y);
void network_draw_groups(Network *network);
void network_draw_notes(Network *network);
char *network_describe(const Network *network);

#endif
