/* What all pictures have: levels, names and carries of the netlist's wires. See frame.h. */
#include "draw/frame/frame.h"

#include "base/memory.h"
#include "draw/notes.h"

#include <assert.h>

enum { RING = 18 };

/* ---- opening --------------------------------------------------------------------------------- */

static bool level_of_pin(const Working *example, Pin pin, unsigned bit) {
    if (pin == PIN_A || pin == PIN_B)
        return word_bit(pin == PIN_A ? &example->a : &example->b, bit);
    if (pin == PIN_CIN)
        return example->cin;
    if (pin == PIN_LINE || pin == PIN_OP)
        return (unit_control_value(example->unit, example->choice) >> bit & 1) != 0;
    return pin_operation(pin) == working_operation(example);
}

/* What the netlist computes from the example's pins. */
static uint64_t *levels_of(const Netlist *netlist, const Working *example) {
    if (example == NULL)
        return NULL;
    uint64_t *values = memory_zeroed(netlist->node_count, sizeof values[0]);
    for (uint32_t k = 1; k < netlist->node_count; k++)
        if (netlist->nodes[k].kind == NODE_INPUT)
            values[k] = level_of_pin(example, netlist->nodes[k].pin, netlist->nodes[k].bit);
    netlist_evaluate(netlist, values);
    return values;
}

void frame_open(Frame *frame, const Unit *unit, const Working *example, const Netlist *netlist,
                CarriesDrawn carries, Scene *scene) {
    const AdderCore *core = netlist->core;
    assert(core != NULL && core->width == unit->width);
    *frame = (Frame){.unit = unit,
                     .example = example,
                     .scene = scene,
                     .netlist = netlist,
                     .core = core,
                     .values = levels_of(netlist, example),
                     .drawn = memory_zeroed(unit->width + 1, sizeof(bool)),
                     .carry_of = memory_zeroed(netlist->node_count, sizeof(unsigned))};
    for (unsigned i = 0; i <= unit->width; i++) {
        Literal carry = frame_carry(frame, i);
        bool gate = frame_is_gate(frame, carry);
        frame->drawn[i] = carries == CARRIES_ALL ||
                          (carries == CARRIES_OF_GATES ? gate : frame_varies(core->carry[i]));
        if (gate)
            frame->carry_of[literal_node(carry)] = i + 1;
    }
    frame->rings = frame_compares(frame) &&
                   (carries == CARRIES_ALL || (frame_varies(core->carry[unit->width]) &&
                                               frame_varies(core->carry[unit->width - 1])));
    for (int which = 0; which < 2; which++) {
        frame->pin[which] = memory_zeroed(unit->width, sizeof(Literal));
        for (unsigned i = 0; i < unit->width; i++)
            frame->pin[which][i] = LITERAL_NONE;
    }
    for (uint32_t k = 1; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (node->kind == NODE_INPUT && (node->pin == PIN_A || node->pin == PIN_B))
            frame->pin[node->pin == PIN_B][node->bit] = k * 2;
    }
}

void frame_close(Frame *frame) {
    memory_free(frame->values);
    memory_free(frame->drawn);
    memory_free(frame->carry_of);
    memory_free(frame->pin[0]);
    memory_free(frame->pin[1]);
}

/* ---- literals -------------------------------------------------------------------------------- */

Literal frame_input(const Frame *frame, Pin pin, unsigned bit) {
    const Netlist *netlist = frame->netlist;
    for (uint32_t k = 1; k < netlist->node_count && netlist->nodes[k].kind == NODE_INPUT; k++)
        if (netlist->nodes[k].pin == pin && netlist->nodes[k].bit == bit)
            return k * 2;
    return LITERAL_NONE;
}

Literal frame_carry(const Frame *frame, unsigned column) {
    const AdderCore *core = frame->core;
    return core->carry[column] == LITERAL_NONE && column == core->width ? core->leaving
                                                                        : core->carry[column];
}

bool frame_carry_is_1(const Frame *frame, unsigned column) {
    Literal carry = frame_carry(frame, column);
    return frame->values != NULL && carry != LITERAL_NONE && frame_level(frame, carry);
}

WireStyle frame_style(const Frame *frame, Literal literal) {
    unsigned carry = frame->carry_of[literal_node(literal)];
    return carry > 0 && frame_carry_is_1(frame, carry - 1) ? WIRE_HEAVY : WIRE_PLAIN;
}

char *frame_name(const Frame *frame, Literal literal) {
    uint32_t k = literal_node(literal);
    const Node *node = &frame->netlist->nodes[k];
    unsigned carry = frame->carry_of[k];
    bool inverted = literal_inverted(literal);
    if (k == 0)
        return memory_text("%d", inverted);
    if (carry > 0)
        return memory_text("%sc%u", literal == frame_carry(frame, carry - 1) ? "" : "not ",
                           carry - 1);
    const char *not = inverted != (netlist_is_gate(node) && node->complement) ? "not " : "";
    if (netlist_is_gate(node)) {
        bool itself = node->role != ROLE_NONE && node->help <= HELP_INVERSE;
        return !itself           ? memory_text("%sn%u", inverted ? "not " : "", k)
               : node->index < 0 ? memory_text("%s%s", not, role_text(node->role))
               : node->low >= 0
                   ? memory_text("%s%s_%d_%d", not, role_text(node->role), node->index, node->low)
                   : memory_text("%s%s%d", not, role_text(node->role), node->index);
    }
    if (node->pin == PIN_A || node->pin == PIN_B)
        return memory_text("%s%c%u", not, node->pin == PIN_A ? 'a' : 'b', node->bit);
    ShortName cut = notes_short(frame->unit->pin[node->pin], FRAME_NAME);
    return unit_pin_bits(frame->unit, node->pin) > 1
               ? memory_text("%s%s[%u]", not, cut.text, node->bit)
               : memory_text("%s%s", not, cut.text);
}

/* ---- wires and levels ------------------------------------------------------------------------ */

void frame_wire(const Frame *frame, Net net, WireStyle style, double x, double from, double to) {
    scene_wire(frame->scene, net, style, x, from);
    scene_to(frame->scene, x, to);
}

void frame_lead(const Frame *frame, Literal literal, double x, double from, double to) {
    frame_wire(frame, literal, WIRE_PLAIN, x, from, to);
    if (to - from >= 16)
        frame_beside(frame, literal, x, from + 12);
}

void frame_beside(const Frame *frame, Literal literal, double x, double y) {
    if (frame->values != NULL)
        scene_value(frame->scene, x + 3, y, ANCHOR_START, literal, frame_level(frame, literal));
}

void frame_above(const Frame *frame, Literal literal, double x, double y) {
    if (frame->values != NULL)
        scene_value(frame->scene, x, y - 4, ANCHOR_START, literal, frame_level(frame, literal));
}

bool frame_compares(const Frame *frame) {
    const AdderCore *core = frame->core;
    return core->carry[core->width] != LITERAL_NONE && core->carry[core->width - 1] != LITERAL_NONE;
}

void frame_carry_level(const Frame *frame, unsigned column, Literal literal, double x, double y,
                       Anchor anchor) {
    if (frame->values == NULL)
        return;
    scene_value(frame->scene, x, y, anchor, literal, frame_level(frame, literal));
    double middle = anchor == ANCHOR_START ? x + 3.3 : anchor == ANCHOR_END ? x - 3.3 : x;
    if (column + 1 >= frame->core->width && frame->rings)
        scene_mark(frame->scene, (Mark){MARK_COMPARED, middle, y - 3.6, RING, RING, literal});
}

void frame_stub(const Frame *frame, Net net, const char *name, double edge, double end, double y) {
    bool right = end > edge;
    scene_wire(frame->scene, net, WIRE_PLAIN, edge, y);
    scene_to(frame->scene, end, y);
    if (name[0] == '\0')
        return;
    scene_name(frame->scene, right ? end + 4 : end - 4, y + 4, right ? ANCHOR_START : ANCHOR_END,
               net, "%s", notes_short(name, FRAME_NAME).text);
}

void frame_gate(const Frame *frame, Symbol symbol, NodeKind kind, Literal gate, double x,
                double top) {
    scene_box(frame->scene,
              (Box){.symbol = symbol,
                    .x = x - GATE_ACROSS / 2.0,
                    .y = top,
                    .width = GATE_ACROSS,
                    .height = GATE_ALONG,
                    .facing = FACING_DOWN,
                    .gate = kind,
                    .node = frame_is_gate(frame, gate) ? literal_node(gate) : 0},
              "");
}

void frame_register(const Frame *frame, Extent extent, double wire) {
    double clock = extent.bottom - 9;
    scene_rect(frame->scene, SYMBOL_REGISTER, extent.left, extent.top, extent.right - extent.left,
               extent.bottom - extent.top, "");
    frame_stub(frame, net_of_pin(PIN_CLK), wire < 16 ? "" : frame->unit->pin[PIN_CLK], extent.left,
               extent.left - wire, clock);
}

/* ---- pictures of columns --------------------------------------------------------------------- */

enum { OMITTED = 200 }; /* the room that stands for columns left out */

bool frame_shows(const Frame *frame, unsigned column) {
    return column < frame->gap_low || column >= frame->gap_high;
}

double frame_x(const Frame *frame, unsigned column) {
    unsigned gap = frame->gap_high - frame->gap_low;
    bool beyond = gap > 0 && column >= frame->gap_high;
    double place = (double)(column - frame->low - (beyond ? gap : 0)) + 0.5;
    return -frame->pitch * place - (beyond ? OMITTED : 0);
}

double frame_left(const Frame *frame) {
    return frame_x(frame, frame->top - 1) - frame->half;
}

double frame_right(const Frame *frame) {
    return frame_x(frame, frame->low) + frame->half;
}

void frame_across(Frame *frame, Symbol symbol, Facing facing, double height, const char *label) {
    bool at_right = facing == FACING_LEFT;
    double left = frame_left(frame), right = frame_right(frame);
    scene_box(frame->scene,
              (Box){.symbol = symbol,
                    .x = left,
                    .y = frame->y,
                    .width = right - left,
                    .height = height,
                    .facing = facing},
              label);
    if (symbol == SYMBOL_REGISTER)
        frame_stub(frame, net_of_pin(PIN_CLK), frame->unit->pin[PIN_CLK], at_right ? right : left,
                   at_right ? right + 16 : left - 16, frame->y + height - 9);
    frame->y += height;
}
