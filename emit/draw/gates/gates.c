/* The gates picture into the scene. See gates.h. */
#include "draw/gates/gates.h"

#include "base/memory.h"
#include "draw/draw.h"
#include "draw/notes.h"
#include "gates/build.h"

enum { SHEET_GAP = 48, HEADER = 22 };

/* A wire across or downward, if it has a length. */
static void draw_line(const Sheet *sheet, Literal literal, double x1, double y1, double x2,
                      double y2) {
    if (x1 >= x2 && y1 >= y2)
        return;
    Scene *scene = sheet->frame->scene;
    scene_wire(scene, literal, frame_style(sheet->frame, literal), x1, y1);
    scene_to(scene, x2, y2);
}

/* ---- items ----------------------------------------------------------------------------------- */

static void draw_gate(const Sheet *sheet, const Item *item) {
    const Node *node = &sheet->frame->netlist->nodes[item->node];
    bool gate = item->kind == ITEM_GATE;
    Box box = {.symbol = gate ? SYMBOL_GATE : SYMBOL_INVERTER,
               .x = item->x - GATE_ACROSS / 2.0,
               .y = item->y,
               .width = GATE_ACROSS,
               .height = GATE_ALONG,
               .facing = FACING_DOWN,
               .gate = gate ? node->kind : NODE_AND,
               .node = gate ? item->node : 0};
    for (int side = 0; side < 2 && gate; side++)
        box.inverted[side] = literal_inverted(node->in[side]);
    scene_box(sheet->frame->scene, box, "");
    if (item->name != NULL)
        scene_name(sheet->frame->scene, item->x - 8, item->y + GATE_ALONG + 13, ANCHOR_END,
                   item->drives, "%s", item->name);
}

/* From a name to the gates or back, for a pin of the unit through its flip-flop. */
static void draw_register(const Sheet *sheet, const Item *item, Literal literal, double y,
                          double height) {
    bool pin =
        item->kind == ITEM_OUTPUT || sheet->frame->netlist->nodes[item->node].kind == NODE_INPUT;
    if (height <= 0 || literal == LITERAL_NONE)
        return;
    if (!pin) {
        draw_line(sheet, literal, item->x, y, item->x, y + height);
        return;
    }
    draw_line(sheet, literal, item->x, y, item->x, y + 6);
    draw_line(sheet, literal, item->x, y + height - 6, item->x, y + height);
    scene_rect(sheet->frame->scene, SYMBOL_REGISTER, item->x - GATE_ACROSS / 2.0, y + 6,
               GATE_ACROSS, height - 12, "");
}

static void draw_item(const Sheet *sheet, const Item *item) {
    Scene *scene = sheet->frame->scene;
    double height = gates_layer_height(sheet, item->layer) - GATES_PIN;
    switch (item->kind) {
    case ITEM_GATE:
    case ITEM_INVERTER:
        draw_gate(sheet, item);
        break;
    case ITEM_SOURCE:
        scene_name(scene, item->x, item->y + 11, ANCHOR_MIDDLE, item->drives, "%s", item->name);
        draw_register(sheet, item, item->drives, item->y + GATES_PIN, height);
        break;
    case ITEM_OUTPUT:
    case ITEM_SINK:
        draw_register(sheet, item, item->reads[0], item->y, height);
        scene_name(scene, item->x, item->y + height + 12, ANCHOR_MIDDLE, item->reads[0], "%s",
                   item->name);
        break;
    }
}

/* ---- nets ------------------------------------------------------------------------------------ */

static double track_y(const Sheet *sheet, const Span *track) {
    return sheet->channel_y[track->place] + GATES_VALUES + GATES_TRACK * track->track;
}

static double layer_top(const Sheet *sheet, int channel) {
    return sheet->channel_y[channel] + GATES_VALUES +
           GATES_TRACK * (double)sheet->channel_tracks[channel] + 4;
}

/* The level beside where a net begins; one of the carries that are compared may be a pin. */
static void draw_level(const Sheet *sheet, Literal literal, double x, double y) {
    const AdderCore *core = sheet->frame->core;
    for (unsigned i = core->width - 1; i <= core->width && !literal_inverted(literal); i++)
        if (sheet->frame->rings && literal_node(core->carry[i]) == literal_node(literal)) {
            frame_carry_level(sheet->frame, i, literal, x + 3, y + 13, ANCHOR_START);
            return;
        }
    frame_beside(sheet->frame, literal, x, y + 13);
}

/* One pin's wire between its layer and the track; two pins of a net above each other are joined by
 * it. */
static void draw_ending(const Sheet *sheet, const Span *track, const Ending *ending) {
    Literal literal = ending->literal;
    double y = track_y(sheet, track), begin = sheet->channel_y[ending->channel];
    if (ending->which < 0) {
        draw_line(sheet, literal, ending->x, begin, ending->x, y);
        draw_level(sheet, literal, ending->x, begin);
    } else {
        draw_line(sheet, literal, ending->x, y, ending->x, layer_top(sheet, ending->channel));
    }
}

/* A net in one channel: across, and to its pins there. */
static void draw_track(const Sheet *sheet, const Span *track) {
    const Route *net = &sheet->net[track->owner];
    double y = track_y(sheet, track);
    draw_line(sheet, net->literal, track->from, y, track->to, y);
    for (uint32_t e = net->first; e < net->first + net->count; e++)
        if (sheet->ending[e].channel == track->place)
            draw_ending(sheet, track, &sheet->ending[e]);
}

/* The lane of a net, between its tracks in the channels where it begins and ends. */
static void draw_lanes(const Sheet *sheet) {
    for (uint32_t k = 0; k < sheet->net_count; k++) {
        const Route *net = &sheet->net[k];
        if (!net->has_lane)
            continue;
        double from = track_y(sheet, tracks_find(sheet->track, sheet->track_count, net->top, k));
        double to = track_y(sheet, tracks_find(sheet->track, sheet->track_count, net->bottom, k));
        draw_line(sheet, net->literal, net->lane_x, from, net->lane_x, to);
    }
}

/* ---- sheets ---------------------------------------------------------------------------------- */

/* Every other column on grey, each with its number. */
static void draw_columns(const Sheet *sheet) {
    Scene *scene = sheet->frame->scene;
    for (unsigned column = sheet->low; column < sheet->top; column++) {
        int group = (int)(sheet->top - column);
        double left = sheet->slot[sheet->group_first[group]].gap_x;
        double right = sheet->slot[sheet->group_first[group + 1]].gap_x;
        if (column % 2 == 1)
            scene_mark(scene, (Mark){MARK_BAND, left, sheet->y_begin - HEADER, right - left,
                                     sheet->y_end - sheet->y_begin + HEADER + 4, LITERAL_NONE});
        scene_text(scene, (left + right) / 2, sheet->y_begin - 8, ANCHOR_MIDDLE, TEXT_BOLD, "%u",
                   column);
    }
}

static void draw_sheet(const Sheet *sheet) {
    draw_columns(sheet);
    for (size_t k = 0; k < sheet->item_count; k++)
        draw_item(sheet, &sheet->item[k]);
    for (uint32_t k = 0; k < sheet->track_count; k++)
        draw_track(sheet, &sheet->track[k]);
    draw_lanes(sheet);
}

/* A network has too many wires from part to part to be cut. */
static unsigned columns_of_sheet(const Unit *unit) {
    unsigned width = unit->width, sheets = (width + GATES_SHEET - 1) / GATES_SHEET;
    if (!draw_is_chain(unit))
        return width;
    return width > DRAW_COLUMNS_MAX ? GATES_SHEET : (width + sheets - 1) / sheets;
}

/* Draws every sheet, the lowest columns first. */
static void draw_sheets(Frame *frame, const int *column, const int *depth) {
    unsigned width = frame->unit->width, step = columns_of_sheet(frame->unit);
    for (unsigned low = 0; low < width; low += step) {
        if (width > DRAW_COLUMNS_MAX && low > 0 && low < width - step) {
            scene_text(frame->scene, 0, frame->y, ANCHOR_START, TEXT_BOLD,
                       "... %u columns like these, %u to %u, are left out ...", width - 2 * step,
                       step, width - step - 1);
            frame->y += SHEET_GAP;
            low = width - step;
        }
        Sheet sheet = {.frame = frame,
                       .column = column,
                       .depth = depth,
                       .y_begin = frame->y,
                       .low = low,
                       .top = width - low < step ? width : low + step};
        gates_plan(&sheet);
        gates_route(&sheet);
        draw_sheet(&sheet);
        frame->y = sheet.y_end + SHEET_GAP + HEADER;
        gates_free(&sheet);
    }
}

/* ---- words ----------------------------------------------------------------------------------- */

static void note_names(const Frame *frame) {
    const Unit *unit = frame->unit;
    unsigned bit = unit->width > 3 ? 3 : unit->width - 1;
    bool b = frame->pin[1][0] != LITERAL_NONE;
    char *operand = b ? memory_text("a%u and b%u are bits of the operands", bit, bit)
                      : memory_text("a%u is a bit of the operand", bit);
    char *text = memory_text("The number above a column is its place in the word; %s, r%u is bit "
                             "%u of the pin %.40s.%s",
                             operand, bit, bit, unit->pin[PIN_RESULT],
                             unit->width > GATES_SHEET && draw_is_chain(unit)
                                 ? " A wire that goes on in another part is named in both."
                                 : "");
    notes_add(frame->scene, text);
    memory_free(operand);
    memory_free(text);
}

static void draw_notes(const Frame *frame) {
    bool any = false;
    for (unsigned i = 0; i <= frame->core->width; i++)
        any = any || frame->drawn[i];
    note_names(frame);
    if (any)
        frame_note_sense(frame);
    frame_note_pins(frame);
    frame_note_path(frame, false);
    frame_note_compared(frame);
}

char *gates_draw(const Unit *unit, const Working *example, Scene *scene) {
    Netlist netlist;
    Frame frame;
    build_netlist(unit, &netlist);
    frame_open(&frame, unit, example, &netlist, CARRIES_OF_GATES, scene);
    int *column = gates_columns(&netlist), *depth = gates_depths(&netlist, column);
    draw_sheets(&frame, column, depth);
    draw_notes(&frame);
    uint32_t gates = 0;
    for (uint32_t k = 0; k < netlist.node_count; k++)
        gates += netlist_is_gate(&netlist.nodes[k]);
    memory_free(column);
    memory_free(depth);
    frame_close(&frame);
    netlist_free(&netlist);
    return memory_text("Every gate, %u of them, and every wire, in columns, column 0 at the right. "
                       "In each column the operands come in at the top and the result goes out at "
                       "the bottom; carries go to the left.",
                       gates);
}
