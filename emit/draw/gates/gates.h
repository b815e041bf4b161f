/* The gates picture's parts, for gates*.c only.
 *
 * Gates stand in columns of the word, column 0 at the right, and in layers from the top down; what
 * comes from outside enters at the top, what leaves stands at the bottom. A net is a source and its
 * sinks. Between two layers is a channel, where each net that has pins there has a track across;
 * a net with pins in several channels has one lane down between the gates. Nothing else is drawn of
 * a net, so wires cannot run into gates or along each other.
 *
 *   carries which gates are the carries                        gates_carries.c
 *   plan    which column, layer and slot each gate has          gates_plan.c
 *   route   lanes, tracks, and with them where everything is    gates_route.c
 *   draw    into the scene                                      gates.c
 *
 * A wide word is cut into sheets of columns, one below the other; a net that goes from one to
 * another is named in both. */
#ifndef SUMWRIGHT_DRAW_GATES_GATES_H
#define SUMWRIGHT_DRAW_GATES_GATES_H

#include "draw/draw.h"
#include "draw/values.h"

enum {
    GATES_SHEET = 8,    /* columns on a sheet at most */
    GATES_NOWHERE = -1, /* a node's column: none, it belongs to the controls */
};

/* Is a node a carry from column to column, or the complement of one? */
typedef enum { CARRY_NONE, CARRY_PLAIN, CARRY_TURNED_OVER } CarryKind;

/* What they are: carries, borrows, or the one in an addition and the other in a subtraction. */
typedef enum { SENSE_OF_CARRIES, SENSE_OF_BORROWS, SENSE_OF_EITHER } CarrySense;

typedef enum {
    ITEM_SOURCE, /* an input pin of the unit, or a net that comes from another sheet */
    ITEM_GATE,
    ITEM_INVERTER, /* before an output whose inverse is what the netlist has */
    ITEM_OUTPUT,   /* an output pin */
    ITEM_SINK,     /* a net that goes to another sheet */
} ItemKind;

/* What stands in a slot of a layer. */
typedef struct {
    ItemKind kind;
    uint32_t node;    /* the gate, the input, or whose net comes or goes */
    uint32_t output;  /* ITEM_OUTPUT, ITEM_INVERTER: its number in the netlist */
    Literal drives;   /* the net that begins here, LITERAL_NONE for none: a node's, or for an
                         inverter its inverse */
    Literal reads[2]; /* nets that end here, LITERAL_NONE for none */
    int group;        /* 0 the outputs at the left, then the columns, the controls at the right */
    int layer;        /* 0 the sources, then the gates, the last the outputs and sinks */
    int slot;         /* in the group, from the left */
    double x, y;      /* the middle of where it stands, the top of the layer */
    char *name;       /* what stands at a source, output or sink; owned */
} Item;

/* A pin of a net. */
typedef struct {
    uint32_t item;
    int which; /* input 0 or 1; -1: where the net begins */
    int channel;
    double x;
} Ending;

typedef struct {
    Literal literal;
    uint32_t first, count; /* its endings, in Sheet.ending */
    int top, bottom;       /* the channels that it has pins in */
    int gap, lane;         /* where it goes from channel to channel, if it does */
    double lane_x;
} Route;

/* The stretch of a net in a channel. */
typedef struct {
    uint32_t net;
    int channel, index;
    double left, right;
} Track;

/* A column of slots: where the gap on its left begins, how many lanes that has, where the slot's
 * middle is, and how wide it is. */
typedef struct {
    int lanes;
    double width, gap_x, middle;
} Slot;

typedef struct {
    const Unit *unit;
    const Netlist *netlist;
    const int *column; /* a node's */
    const int *depth;  /* a node's layer */
    const CarryKind *carry;
    unsigned low, top; /* the columns on this sheet */
    Item *item;
    uint32_t item_count, item_room;
    int layers; /* the last layer's number: outputs and sinks */
    int group_count;
    int *group_first; /* a group's first slot; one entry more than there are groups */
    Slot *slot;
    int slot_count;
    Route *net;
    uint32_t net_count;
    Ending *ending;
    uint32_t ending_count;
    Track *track;
    uint32_t track_count;
    int *channel_tracks;  /* in each channel */
    double *channel_y;    /* where each channel begins */
    double bottom, right; /* of the sheet; it begins at 0, 0 */
} Sheet;

/* gates_carries.c: what every node is, which the caller frees; and what the carries are. */
CarryKind *gates_carries(const Unit *unit, const Netlist *netlist, CarrySense *sense);

/* gates_plan.c: the column and the layer of every node, an array each that the caller frees; then
 * the items of the sheet's columns, placed in slots. */
int *gates_columns(const Unit *unit, const Netlist *netlist);
int *gates_depths(const Netlist *netlist, const int *column);
void gates_plan(Sheet *sheet);

/* Is it of a kind that GATES_ASIDE is for? */
bool gates_may_stand_aside(const Item *item);

/* gates_route.c: nets, lanes, tracks and places. */
void gates_route(Sheet *sheet);

/* Frees what plan and route made. */
void gates_free(Sheet *sheet);
/* How high a layer is. */
double gates_layer_height(const Sheet *sheet, int layer);

enum {
    GATES_TRACK = 8,     /* from track to track, and from lane to lane */
    GATES_VALUES = 20,   /* above the tracks of a channel, for levels */
    GATES_MARGIN = 8,    /* on the left of a gap's lanes */
    GATES_PIN = 16,      /* the height of a name, */
    GATES_REGISTER = 36, /* and of a flip-flop beside it */
    GATES_ASIDE = 10,    /* how far beside the middle of its slot an output stands, or an inverter,
                            that    does not read the gate above it, so that their wires do not meet */
};

#endif
