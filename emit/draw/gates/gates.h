/* The gates picture's parts.
 *
 * Gates stand in columns of the word, column 0 at the right, and in layers from the top down; what
 * comes from outside enters at the top, what leaves stands at the bottom. A net is a source and its
 * sinks. Between two layers is a channel, where each net that has pins there has a track across;
 * a net with pins in several channels has one lane down between the gates. Nothing else is drawn of
 * a net, so wires cannot run into gates or along each other.
 *
 *   plan    which column, layer and slot each gate has          plan.c
 *   route   lanes, tracks, and with them where everything is    route.c
 *   draw    into the scene                                      gates.c
 *
 * A wide word is cut into sheets of columns, one below the other; a net that goes from one to
 * another is named in both. */
#ifndef SUMWRIGHT_DRAW_GATES_GATES_H
#define SUMWRIGHT_DRAW_GATES_GATES_H

#include "draw/frame/frame.h"
#include "draw/frame/tracks.h"

enum {
    GATES_SHEET = 8,     /* columns on a sheet at most */
    GATES_NOWHERE = -1,  /* a node's column: none, it belongs to the controls */
    GATES_TRACK = 8,     /* from track to track, and from lane to lane */
    GATES_VALUES = 20,   /* above the tracks of a channel, for levels */
    GATES_MARGIN = 8,    /* on the left of a gap's lanes */
    GATES_PIN = 16,      /* the height of a name, */
    GATES_REGISTER = 36, /* and of a flip-flop beside it */
    GATES_ASIDE = 10,    /* how far beside the middle of its slot stands what may stand aside */
};

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
    Literal drives;   /* the net that begins here, LITERAL_NONE for none: a node's, or for an
                         inverter its inverse */
    Literal reads[2]; /* nets that end here, LITERAL_NONE for none */
    int group;        /* 0 the outputs at the left, then the columns, the controls at the right */
    int layer;        /* 0 the sources, then the gates, the last the outputs and sinks */
    int slot;         /* from the left */
    double x, y;      /* the middle of where it stands, the top of the layer */
    char *name;       /* what stands at a source, output or sink, and beside a carry; owned */
} Item;

/* A pin of a net. */
typedef struct {
    Literal literal;
    uint32_t item;
    int which; /* input 0 or 1; -1: where the net begins */
    int channel;
    double x;
} Ending;

typedef struct {
    Literal literal;
    uint32_t first, count; /* its endings, in Sheet.ending */
    int top, bottom;       /* the channels that it has pins in */
    bool has_lane;         /* it goes from channel to channel, */
    double lane_x;         /* there */
} Route;

/* A column of slots: where the gap on its left begins, how many lanes that has, where the slot's
 * middle is, and how wide it is. */
typedef struct {
    int lanes;
    double width, gap_x, middle;
} Slot;

typedef struct {
    const Frame *frame;
    const int *column; /* a node's */
    const int *depth;  /* a node's layer */
    unsigned low, top; /* the columns on this sheet */
    Item *item;
    size_t item_count, item_room;
    int layers; /* the last layer's number: outputs and sinks */
    int group_count;
    int *group_first; /* a group's first slot; one entry more than there are groups */
    Slot *slot;
    int slot_count;
    Route *net;
    uint32_t net_count;
    Ending *ending;
    uint32_t ending_count;
    Span *track; /* the stretches of nets in the channels: place is the channel, owner the net */
    uint32_t track_count;
    int *channel_tracks;   /* in each channel */
    double *channel_y;     /* where each channel begins */
    double y_begin, y_end; /* the sheet's upper edge, which is given, and its lower */
} Sheet;

/* plan.c: the column and the layer of every node, an array each that the caller frees; then the
 * items of the sheet's columns, placed in slots. */
int *gates_columns(const Netlist *netlist);
int *gates_depths(const Netlist *netlist, const int *column);
void gates_plan(Sheet *sheet);

/* Is it of a kind that stands aside of the slot's middle where it does not read the gate above it,
 * so that their wires do not meet? */
bool gates_may_stand_aside(const Item *item);

/* route.c: nets, lanes, tracks and places. */
void gates_route(Sheet *sheet);
double gates_layer_height(const Sheet *sheet, int layer);

/* Frees what plan and route made. */
void gates_free(Sheet *sheet);

#endif
