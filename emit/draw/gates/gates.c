/* The gates picture into the scene. See gates.h. */
#include "draw/gates/gates.h"

#include "base/memory.h"
#include "draw/notes.h"
#include "gates/build.h"

#include <stdlib.h>
#include <string.h>

enum { SHEET_GAP = 48, HEADER = 22, RING = 18 };

/* What is being drawn. */
typedef struct {
    const Unit *unit;
    const Netlist *netlist;
    Scene *scene;
    uint64_t *values;             /* or NULL */
    CarryKind *carry;             /* a node's */
    CarrySense sense;             /* what they are */
    double x, y;                  /* where the sheet begins */
    bool compared;                /* are there two carries that are compared? */
    uint32_t carry_in, carry_out; /* their nodes */
} Gates;

/* ---- carries -----------------------------------------------------------------------------------
 */

/* The gate of a chain's carry into a column, or 0. */
static uint32_t find_carry(const Gates *gates, Role role, int index) {
    const Netlist *netlist = gates->netlist;
    for (uint32_t k = 1; k < netlist->node_count; k++)
        if (gates->carry[k] != CARRY_NONE && netlist_is_gate(&netlist->nodes[k]) &&
            netlist->nodes[k].index == index &&
            (role == ROLE_NONE || role == netlist->nodes[k].role))
            return k;
    return 0;
}

/* The two carries that are compared: both gates of one chain, or, where the first carry is one of
 * them, what the gate reads that compares them. */
static void find_compared(Gates *gates) {
    const Netlist *netlist = gates->netlist;
    int width = (int)gates->unit->width;
    gates->carry_out = find_carry(gates, ROLE_NONE, width);
    if (gates->carry_out == 0)
        return;
    gates->carry_in = find_carry(gates, netlist->nodes[gates->carry_out].role, width - 1);
    for (uint32_t k = 1; k < netlist->node_count && gates->carry_in == 0; k++) {
        const Node *node = &netlist->nodes[k];
        bool differs = node->kind == NODE_XOR || node->kind == NODE_XNOR;
        if (!differs || node->role != ROLE_OVERFLOWS)
            continue;
        for (int side = 0; side < 2; side++)
            if (literal_node(node->in[side]) == gates->carry_out)
                gates->carry_in = literal_node(node->in[1 - side]);
    }
    gates->compared = gates->carry_in != 0 && gates->carry[gates->carry_in] != CARRY_NONE;
}

static const char *carry_word(const Gates *gates, bool several) {
    static const char *const words[][2] = {
        [SENSE_OF_CARRIES] = {"carry", "carries"},
        [SENSE_OF_BORROWS] = {"borrow", "borrows"},
        [SENSE_OF_EITHER] = {"carry or borrow", "carries or borrows"}};
    return words[gates->sense][several];
}

/* The level of a carry in the example, whichever way its gate stands. */
static bool carry_level(const Gates *gates, uint32_t node) {
    return values_level(gates->values, node * 2) != (gates->carry[node] == CARRY_TURNED_OVER);
}

static WireStyle style_of(const Gates *gates, Literal literal) {
    uint32_t node = literal_node(literal);
    bool carry = gates->carry[node] == CARRY_PLAIN && netlist_is_gate(&gates->netlist->nodes[node]);
    return carry && !literal_inverted(literal) && gates->values != NULL &&
                   values_level(gates->values, literal)
               ? WIRE_HEAVY
               : WIRE_PLAIN;
}

/* A wire across or downward, if it has a length. */
static void draw_line(const Gates *gates, Literal literal, double x1, double y1, double x2,
                      double y2) {
    if (x1 >= x2 && y1 >= y2)
        return;
    scene_wire(gates->scene, literal, style_of(gates, literal), x1, y1);
    scene_to(gates->scene, x2, y2);
}

/* ---- items
 * --------------------------------------------------------------------------------------- */

static void draw_gate(const Gates *gates, const Item *item) {
    const Node *node = &gates->netlist->nodes[item->node];
    bool gate = item->kind == ITEM_GATE;
    Box box = {.symbol = gate ? SYMBOL_GATE : SYMBOL_INVERTER,
               .x = gates->x + item->x - GATE_ACROSS / 2.0,
               .y = gates->y + item->y,
               .width = GATE_ACROSS,
               .height = GATE_ALONG,
               .facing = FACING_DOWN,
               .gate = gate ? node->kind : NODE_AND,
               .node = gate ? item->node : 0};
    for (int side = 0; side < 2 && gate; side++)
        box.inverted[side] = literal_inverted(node->in[side]);
    scene_box(gates->scene, box, "");
    if (item->name != NULL)
        scene_name(gates->scene, gates->x + item->x - 8, box.y + GATE_ALONG + 13, ANCHOR_END,
                   item->drives, "%s", item->name);
}

static bool is_pin(const Gates *gates, const Item *item) {
    return item->kind == ITEM_OUTPUT || gates->netlist->nodes[item->node].kind == NODE_INPUT;
}

/* The way past the register: for a pin through its flip-flop. */
static void draw_register(const Gates *gates, Literal literal, bool pin, double x, double y,
                          double height) {
    if (height <= 0 || literal == LITERAL_NONE)
        return;
    Box box = {.symbol = SYMBOL_REGISTER,
               .x = x - GATE_ACROSS / 2.0,
               .y = y + 6,
               .width = GATE_ACROSS,
               .height = height - 12};
    if (pin) {
        draw_line(gates, literal, x, y, x, box.y);
        draw_line(gates, literal, x, box.y + box.height, x, y + height);
        scene_box(gates->scene, box, "");
    } else {
        draw_line(gates, literal, x, y, x, y + height);
    }
}

static void draw_item(const Gates *gates, const Sheet *sheet, const Item *item) {
    double x = gates->x + item->x, y = gates->y + item->y;
    switch (item->kind) {
    case ITEM_GATE:
    case ITEM_INVERTER:
        draw_gate(gates, item);
        break;
    case ITEM_SOURCE:
        scene_name(gates->scene, x, y + 11, ANCHOR_MIDDLE, item->drives, "%s", item->name);
        draw_register(gates, item->drives, is_pin(gates, item), x, y + GATES_PIN,
                      gates_layer_height(sheet, 0) - GATES_PIN);
        break;
    default: {
        double height = gates_layer_height(sheet, sheet->layers) - GATES_PIN;
        draw_register(gates, item->reads[0], is_pin(gates, item), x, y, height);
        scene_name(gates->scene, x, y + height + 12, ANCHOR_MIDDLE, item->reads[0], "%s",
                   item->name);
    }
    }
}

/* ---- nets
 * ---------------------------------------------------------------------------------------- */

static double track_y(const Gates *gates, const Sheet *sheet, const Track *track) {
    return gates->y + sheet->channel_y[track->channel] + GATES_VALUES + GATES_TRACK * track->index;
}

static double layer_top(const Gates *gates, const Sheet *sheet, int channel) {
    return gates->y + sheet->channel_y[channel] + GATES_VALUES +
           GATES_TRACK * (double)sheet->channel_tracks[channel] + 4;
}

/* A dot where wires of a net go three ways or four. */
static void draw_joint(const Gates *gates, const Sheet *sheet, const Track *track, double x,
                       int downward) {
    int ways = downward + (track->left < x) + (track->right > x);
    if (ways > 2)
        scene_dot(gates->scene, sheet->net[track->net].literal, gates->x + x,
                  track_y(gates, sheet, track));
}

/* The level beside where a net begins, with a ring where it is one of the carries compared. */
static void draw_level(const Gates *gates, const Sheet *sheet, Literal literal, double x,
                       int channel) {
    if (gates->values == NULL)
        return;
    double y = gates->y + sheet->channel_y[channel];
    uint32_t node = literal_node(literal);
    scene_value(gates->scene, x + 3, y + 13, ANCHOR_START, literal,
                values_level(gates->values, literal));
    bool inverter = literal_inverted(literal);
    if (gates->compared && !inverter && (node == gates->carry_in || node == gates->carry_out))
        scene_mark(gates->scene, (Mark){MARK_COMPARED, x + 6.3, y + 9.5, RING, RING, literal});
}

/* One pin's wire between its layer and the track; two pins of a net above each other are joined by
 * it. */
static void draw_ending(const Gates *gates, const Sheet *sheet, const Track *track,
                        const Ending *ending) {
    Literal literal = sheet->net[track->net].literal;
    double x = gates->x + ending->x, y = track_y(gates, sheet, track);
    if (ending->which < 0) {
        draw_line(gates, literal, x, gates->y + sheet->channel_y[ending->channel], x, y);
        draw_level(gates, sheet, literal, x, ending->channel);
    } else {
        draw_line(gates, literal, x, y, x, layer_top(gates, sheet, ending->channel));
    }
}

/* A net in one channel: across, to its pins there, with dots where it parts. */
static void draw_track(const Gates *gates, const Sheet *sheet, const Track *track) {
    const Route *net = &sheet->net[track->net];
    double y = track_y(gates, sheet, track);
    draw_line(gates, net->literal, gates->x + track->left, y, gates->x + track->right, y);
    const Ending *above = NULL; /* where the net begins, in this channel */
    for (uint32_t e = net->first; e < net->first + net->count; e++)
        if (sheet->ending[e].channel == track->channel && sheet->ending[e].which < 0)
            above = &sheet->ending[e];
    bool joined = false;
    for (uint32_t e = net->first; e < net->first + net->count; e++) {
        const Ending *ending = &sheet->ending[e];
        if (ending->channel != track->channel)
            continue;
        draw_ending(gates, sheet, track, ending);
        bool through =
            above != NULL && ending != above && ending->x >= above->x && ending->x <= above->x;
        joined = joined || through;
        if (ending != above)
            draw_joint(gates, sheet, track, ending->x, through ? 2 : 1);
    }
    if (above != NULL && !joined)
        draw_joint(gates, sheet, track, above->x, 1);
    if (net->lane >= 0)
        draw_joint(gates, sheet, track, net->lane_x,
                   (track->channel > net->top) + (track->channel < net->bottom));
}

/* The lane of a net, between its tracks in the channels where it begins and ends. */
static void draw_lanes(const Gates *gates, const Sheet *sheet) {
    double *from = memory_zeroed(sheet->net_count + 1, sizeof from[0]);
    for (uint32_t k = 0; k < sheet->track_count; k++) {
        const Track *track = &sheet->track[k];
        const Route *net = &sheet->net[track->net];
        double y = track_y(gates, sheet, track);
        if (net->lane < 0)
            continue;
        if (track->channel == net->top)
            from[track->net] = y;
        if (track->channel == net->bottom)
            draw_line(gates, net->literal, gates->x + net->lane_x, from[track->net],
                      gates->x + net->lane_x, y);
    }
    free(from);
}

/* ---- sheets
 * -------------------------------------------------------------------------------------- */

/* Every other column on grey, each with its number. */
static void draw_columns(const Gates *gates, const Sheet *sheet) {
    for (unsigned column = sheet->low; column < sheet->top; column++) {
        int group = (int)(sheet->top - column);
        double left = sheet->slot[sheet->group_first[group]].gap_x;
        double right = sheet->slot[sheet->group_first[group + 1]].gap_x;
        if (column % 2 == 1)
            scene_mark(gates->scene,
                       (Mark){MARK_BAND, gates->x + left, gates->y - HEADER, right - left,
                              sheet->bottom + HEADER + 4, LITERAL_NONE});
        scene_text(gates->scene, gates->x + (left + right) / 2, gates->y - 8, ANCHOR_MIDDLE,
                   TEXT_BOLD, "%u", column);
    }
}

static void draw_sheet(const Gates *gates, const Sheet *sheet) {
    draw_columns(gates, sheet);
    for (uint32_t k = 0; k < sheet->item_count; k++)
        draw_item(gates, sheet, &sheet->item[k]);
    for (uint32_t k = 0; k < sheet->track_count; k++)
        draw_track(gates, sheet, &sheet->track[k]);
    draw_lanes(gates, sheet);
}

/* A network has too many wires from part to part to be cut. */
static unsigned columns_of_sheet(const Unit *unit) {
    unsigned width = unit->width, sheets = (width + GATES_SHEET - 1) / GATES_SHEET;
    if (!draw_is_chain(unit))
        return width;
    return width > DRAW_COLUMNS_MAX ? GATES_SHEET : (width + sheets - 1) / sheets;
}

/* Draws every sheet, the lowest columns first. */
static void draw_sheets(Gates *gates, const int *column, const int *depth) {
    unsigned width = gates->unit->width, step = columns_of_sheet(gates->unit);
    for (unsigned low = 0; low < width; low += step) {
        if (width > DRAW_COLUMNS_MAX && low > 0 && low < width - step) {
            scene_text(gates->scene, 0, gates->y, ANCHOR_START, TEXT_BOLD,
                       "... %u columns like these, %u to %u, are left out ...", width - 2 * step,
                       step, width - step - 1);
            gates->y += SHEET_GAP;
            low = width - step;
        }
        Sheet sheet = {.unit = gates->unit,
                       .netlist = gates->netlist,
                       .column = column,
                       .depth = depth,
                       .carry = gates->carry,
                       .low = low,
                       .top = width - low < step ? width : low + step};
        gates_plan(&sheet);
        gates_route(&sheet);
        draw_sheet(gates, &sheet);
        gates->y += sheet.bottom + SHEET_GAP + HEADER;
        gates_free(&sheet);
    }
}

/* ---- words
 * --------------------------------------------------------------------------------------- */

static uint32_t count_gates(const Netlist *netlist) {
    uint32_t count = 0;
    for (uint32_t k = 0; k < netlist->node_count; k++)
        count += netlist_is_gate(&netlist->nodes[k]);
    return count;
}

static bool has_chain(const Gates *gates) {
    const Node *first = &gates->netlist->nodes[find_carry(gates, ROLE_NONE, 1)];
    return values_carry_letter(first) == 'k';
}

/* Only the carries that are gates have a place on the path. */
static void note_path(const Gates *gates) {
    unsigned width = gates->unit->width;
    bool *level = memory_zeroed(width + 1, sizeof level[0]);
    Role role = gates->netlist->nodes[find_carry(gates, ROLE_NONE, 1)].role;
    for (uint32_t k = 1; k < gates->netlist->node_count && role != ROLE_NONE; k++) {
        const Node *node = &gates->netlist->nodes[k];
        if (gates->carry[k] != CARRY_NONE && netlist_is_gate(node) && node->role == role)
            level[node->index] = carry_level(gates, k);
    }
    notes_path(gates->scene, level, width + 1, carry_word(gates, true),
               has_chain(gates) ? 'k' : 'c');
    free(level);
}

static void draw_notes(const Gates *gates) {
    const Unit *unit = gates->unit;
    char *text = memory_text(
        "The number above a column is its place in the word; a3 and b3 are "
        "bits of the operands, c3 is the %s into column 3, r3 is bit 3 of the pin %.40s.%s",
        carry_word(gates, false), unit->pin[PIN_RESULT],
        unit->width > GATES_SHEET && draw_is_chain(unit)
            ? " A wire that goes on in another part is named in both."
            : "");
    notes_add(gates->scene, text);
    free(text);
    if (has_chain(gates))
        notes_add(gates->scene,
                  "k3 is the carry of an addition, or the borrow of a subtraction, into "
                  "column 3.");
    notes_pins(unit, gates->scene);
    if (gates->values == NULL)
        return;
    note_path(gates);
    if (!gates->compared)
        return;
    bool in = carry_level(gates, gates->carry_in), out = carry_level(gates, gates->carry_out);
    text = memory_text(
        "Rings: the two %s that are compared, %d out of the sign column and %d into it; they %s.",
        carry_word(gates, true), out, in, in == out ? "are equal: valid" : "differ: overflow");
    notes_add(gates->scene, text);
    free(text);
}

char *gates_draw(const Unit *unit, const Working *example, Scene *scene) {
    Netlist netlist;
    build_netlist(unit, &netlist);
    Gates gates = {.unit = unit, .netlist = &netlist, .scene = scene};
    gates.values = values_of(&netlist, example);
    gates.carry = gates_carries(unit, &netlist, &gates.sense);
    find_compared(&gates);
    int *column = gates_columns(unit, &netlist);
    int *depth = gates_depths(&netlist, column);
    draw_sheets(&gates, column, depth);
    draw_notes(&gates);
    char *words = memory_text("Every gate, %u of them, and every wire, in columns, column 0 at the "
                              "right. In each column the operands come in at the top and the "
                              "result goes out at the bottom; carries go to the left.",
                              count_gates(&netlist));
    free(column);
    free(depth);
    free(gates.carry);
    free(gates.values);
    netlist_free(&netlist);
    return words;
}
