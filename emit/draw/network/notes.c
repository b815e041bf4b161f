/* What stands around a network picture: the groups behind it, the levels' numbers, what is left
 * out, and the legend. */
#include "draw/network/network.h"

#include "base/memory.h"
#include "draw/notes.h"

enum {
    LEGEND_LINE = 34,
    LEGEND_WIDTH = 620,
    GROUPS_Y = -8, /* the groups' upper end */
    TIER = 20,     /* of brackets */
};

/* ---- kinds of cells ------------------------------------------------------------------------ */

/* A cell that joins spans and is asked for no more than its carry looks like one. */
static CoreKind kind_of(const CoreCell *cell) {
    bool carries = cell->kind == CORE_JOIN && !frame_varies(cell->passes);
    return carries ? CORE_CARRY : cell->kind;
}

static const struct {
    Symbol symbol;
    Shade shade;
    const char *meaning; /* NULL: not in the legend */
} kinds[CORE_KIND_COUNT] = {
    [CORE_COLUMN] =
        {SYMBOL_FRAME, SHADE_WHITE,
         "column: it makes a carry (g), or passes on one that enters (p); the fine wire beside "
         "the cells is its sum but for the carry"},
    [CORE_JOIN] = {SYMBOL_HEXAGON, SHADE_BLACK,
                   "join: neighbouring spans of columns as one: a carry is made (g) in the "
                   "upper one, or in a lower one and passed on; passed on (p) by all"},
    [CORE_CARRY] = {SYMBOL_WEDGE, SHADE_WHITE,
                    "carry: made in the upper span, or in a lower one, or entering, and passed "
                    "on (g); it is the carry out of its column"},
    [CORE_SKIP] = {SYMBOL_FUNNEL, SHADE_GREY,
                   "skip: the carry past a group: made there, or let through at once"},
    [CORE_PAIR] = {SYMBOL_FRAME, SHADE_BLACK,
                   "pair: the carry out of the column if none enters the group, and if one "
                   "does"},
    [CORE_SELECT] = {SYMBOL_FUNNEL, SHADE_GREY,
                     "select: which of the pair it is, by the carry that enters the group"},
};

Box network_box(const Network *network, const CoreCell *cell, double x, double y) {
    CoreKind kind = kind_of(cell);
    return (Box){.symbol = kinds[kind].symbol,
                 .shade = kinds[kind].shade,
                 .facing = FACING_DOWN,
                 .node = frame_varies(cell->generates) ? literal_node(cell->generates) : 0,
                 .x = x - network->half_cell,
                 .y = y,
                 .width = 2 * network->half_cell,
                 .height = NETWORK_CELL};
}

static bool shows_kind(const Network *network, CoreKind kind) {
    for (uint32_t k = 0; k < network->frame.core->cell_count; k++)
        if (kind_of(&network->frame.core->cell[k]) == kind && network->row[k] != NETWORK_NOWHERE)
            return true;
    return false;
}

static uint32_t count_cells(const Network *network, bool shown_only) {
    uint32_t count = 0;
    for (uint32_t k = 0; k < network->frame.core->cell_count; k++)
        count += network->frame.core->cell[k].level > 0 &&
                 core_cell_is_there(&network->frame.core->cell[k]) &&
                 (!shown_only || network->row[k] != NETWORK_NOWHERE);
    return count;
}

static unsigned depth(const Network *network) {
    unsigned deepest = 0;
    for (uint32_t k = 0; k < network->frame.core->cell_count; k++)
        if (core_cell_is_there(&network->frame.core->cell[k]) &&
            network->frame.core->cell[k].level > deepest)
            deepest = network->frame.core->cell[k].level;
    return deepest;
}

/* ---- behind and beside --------------------------------------------------------------------- */

/* Which of a group's columns are shown, if any are. */
static bool shown_part(const Network *network, CoreGroup *group) {
    while (group->top > group->bottom && !frame_shows(&network->frame, group->top))
        group->top--;
    while (group->bottom < group->top && !frame_shows(&network->frame, group->bottom))
        group->bottom++;
    return frame_shows(&network->frame, group->top);
}

/* A bracket over the columns of a group; groups of groups have theirs higher. */
static void draw_group(Network *network, const CoreGroup *group, bool grey) {
    Frame *frame = &network->frame;
    Scene *scene = network->frame.scene;
    CoreGroup part = *group;
    if (!shown_part(network, &part))
        return;
    const double half = frame->pitch / 2 - 2;
    const double left = network_x(network, (int)part.top) - half;
    const double right = network_x(network, (int)part.bottom) + half;
    const double y = GROUPS_Y - TIER * (double)group->tier;
    if (grey)
        scene_mark(scene, (Mark){.kind = MARK_BAND,
                                 .x = left - 2,
                                 .y = GROUPS_Y,
                                 .width = right - left + 4,
                                 .height = network->top[network->row_count + 1] + GATE_ALONG + 8 -
                                           GROUPS_Y});
    scene_wire(scene, LITERAL_NONE, WIRE_FRAME, left, y + 8);
    scene_to(scene, left, y + 4);
    scene_to(scene, right, y + 4);
    scene_to(scene, right, y + 8);
    char *span = group->top > group->bottom ? memory_text("%u...%u", group->top, group->bottom)
                                            : memory_text("%u", group->top);
    scene_text(scene, (left + right) / 2, y, ANCHOR_MIDDLE, TEXT_SMALL, "%s", span);
    memory_free(span);
}

static void draw_levels(Network *network) {
    Frame *frame = &network->frame;
    Scene *scene = network->frame.scene;
    const double x = frame_left(frame) - 4;
    for (int row = 1; row <= network->row_count; row++)
        scene_text(scene, x, network->top[row] + NETWORK_CELL / 2.0 + 4, ANCHOR_END, TEXT_PLAIN,
                   "level %u", network->level[row]);
    scene_text(scene, x, network->columns_top + NETWORK_COLUMN / 2.0 + 4, ANCHOR_END, TEXT_PLAIN,
               "columns");
}

static void draw_omission(Network *network, double y) {
    Frame *frame = &network->frame;
    Scene *scene = network->frame.scene;
    if (frame->gap_low == frame->unit->width)
        return;
    const double x =
        (network_x(network, (int)frame->gap_low - 1) + network_x(network, (int)frame->gap_high)) /
        2;
    scene_text(scene, x, y - 48, ANCHOR_MIDDLE, TEXT_BOLD, "... left out ...");
    scene_text(scene, x, y - 30, ANCHOR_MIDDLE, TEXT_PLAIN, "columns %u to %u", frame->gap_low,
               frame->gap_high - 1);
    scene_text(scene, x, y - 12, ANCHOR_MIDDLE, TEXT_PLAIN, "and their %u cells",
               count_cells(network, false) - count_cells(network, true));
}

void network_draw_groups(Network *network) {
    Frame *frame = &network->frame;
    Scene *scene = network->frame.scene;
    const AdderCore *core = frame->core;
    const double x = frame_left(frame) - 8;
    bool grey = false;
    unsigned tiers = 0;
    for (uint32_t k = 0; k < core->group_count; k++) {
        const CoreGroup *group = &core->group[k];
        draw_group(network, group, group->tier == 1 && grey);
        grey = !grey;
        tiers = group->tier;
    }
    for (unsigned tier = 1; tier <= tiers; tier++)
        scene_text(scene, x, GROUPS_Y - TIER * (double)tier, ANCHOR_END, TEXT_SMALL,
                   tier == 1 ? "groups" : "groups of groups");
    draw_levels(network);
    draw_omission(network, GROUPS_Y - TIER * (double)tiers);
}

/* ---- below --------------------------------------------------------------------------------- */

static void draw_legend_line(Network *network, double left, const CoreCell *cell,
                             const char *meaning) {
    Frame *frame = &network->frame;
    Scene *scene = network->frame.scene;
    const double x = left + network->half_cell;
    Box box = network_box(network, cell, x, frame->y);
    scene_box(scene, box, "");
    double end =
        scene_paragraph(scene, left + 2 * network->half_cell + 14,
                        frame->y + NETWORK_CELL / 2.0 + 4, LEGEND_WIDTH, TEXT_PLAIN, meaning);
    frame->y += LEGEND_LINE;
    if (frame->y < end)
        frame->y = end;
}

static void note_example(const Network *network) {
    const Frame *frame = &network->frame;
    if (frame->example == NULL || !network_carries(network))
        return;
    notes_add(frame->scene, "Beside each wire stands its level, g on the left and p on the right.");
    frame_note_path(frame, true);
    frame_note_compared(frame);
}

void network_draw_notes(Network *network) {
    Frame *frame = &network->frame;
    Scene *scene = network->frame.scene;
    const double left = scene_extent(scene).left;
    frame->y = scene_extent(scene).bottom + 28;
    for (int kind = CORE_COLUMN; kind < CORE_KIND_COUNT; kind++) {
        /* A cell of the kind to be drawn as one, g and p. */
        CoreCell cell = {.kind = (CoreKind)kind, .passes = LITERAL_1 + 1};
        if (shows_kind(network, (CoreKind)kind))
            draw_legend_line(network, left, &cell, kinds[kind].meaning);
    }
    if (frame->boxed)
        notes_add(scene, "X, Y: the operands as the operation has them added, turned over "
                         "or 0 where it wants that.");
    if (network_carries(network))
        frame_note_sense(frame);
    else
        notes_add(scene, "No column ever makes a carry: there is nothing to find.");
    frame_note_result(frame);
    frame_note_pins(frame);
    note_example(network);
}

char *network_describe(const Network *network) {
    const unsigned levels = depth(network), width = network->frame.unit->width;
    const uint32_t cells = count_cells(network, false);
    return memory_text(
        "%u column%s, column 0 at the right. From above: the operand row with its control, the "
        "columns, each saying whether it makes a carry or passes one on, %u cell%s in %u level%s "
        "that find the carry into every column, and the sums, which go down to the result. On the "
        "left are the flags.",
        width, width == 1 ? "" : "s", cells, cells == 1 ? "" : "s", levels, levels == 1 ? "" : "s");
}
