/* The lower part of a network picture: the sums, what becomes of them on their way to the result,
 * and the flags in a box on the left, where the last carry leaves. */
#include "draw/network.h"

#include "base/memory.h"
#include "gates/operands.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    FLAGS = 176, /* the box of the flags */
    FLAG_LINE = 14,
    INPUT_GAP = 18,
    STUB = 28,
    ACROSS = 28, /* a box across the columns */
};

static const double ring = 17;

/* ---- sums ---------------------------------------------------------------------------------- */

static bool is_compared(const Network *network, unsigned carry) {
    return carry + 1 >= network->unit->width;
}

/* The level of a carry, ringed if it is one of the two that are compared. */
static void draw_carry_level(Network *network, unsigned i, double x, double y, Anchor anchor) {
    Literal carry = network->landmarks.carry[i];
    if (network->values == NULL)
        return;
    scene_value(network->scene, x, y, anchor, carry, network_level(network, carry));
    double middle = anchor == ANCHOR_START ? x + 3.3 : x - 3.3;
    if (is_compared(network, i))
        scene_mark(network->scene, (Mark){MARK_COMPARED, middle, y - 3.7, ring, ring, carry});
}

/* Where a sum's wire is, from the middle of its column. */
static double sum_x(const Network *network, unsigned i) {
    return network_x(network, (int)i) + network->lane - GATE_INPUT;
}

/* The sum of a column: its half sum, turned over where a carry enters. */
static void draw_sum(Network *network, unsigned i) {
    const Landmarks *landmarks = &network->landmarks;
    const double lane = network_x(network, (int)i) + network->lane;
    const double columns_end = network->columns_top + NETWORK_COLUMN;
    const double gate = network->top[network->row_count + 1];
    Literal half = landmarks->half[i], carry = landmarks->carry[i];
    if (!network_varies(half))
        return;
    if (network->values != NULL)
        scene_value(network->scene, lane + 3, columns_end + 11, ANCHOR_START, half,
                    network_level(network, half));
    if (!network_varies(carry) || landmarks->sum[i] == LITERAL_NONE) {
        scene_wire(network->scene, half, WIRE_FINE, lane, columns_end);
        scene_to(network->scene, lane, gate + GATE_ALONG / 2.0);
        scene_to(network->scene, sum_x(network, i), gate + GATE_ALONG / 2.0);
        scene_to(network->scene, sum_x(network, i), gate + GATE_ALONG);
        return;
    }
    network_lead(network, half, WIRE_FINE, lane, columns_end, gate);
    scene_box(network->scene,
              (Box){.symbol = SYMBOL_GATE,
                    .x = sum_x(network, i) - GATE_ACROSS / 2.0,
                    .y = gate,
                    .width = GATE_ACROSS,
                    .height = GATE_ALONG,
                    .facing = FACING_DOWN,
                    .gate = NODE_XOR,
                    .node = literal_node(landmarks->sum[i])},
              "");
}

static void draw_carry_name(Network *network, unsigned i) {
    const double x = network_x(network, (int)i) + network->lane - 2 * GATE_INPUT;
    const double y = network->tap - 5;
    if (!network_enters(network, i))
        return;
    scene_name(network->scene, x - 3, y, ANCHOR_END, network->landmarks.carry[i], "c%u", i);
    draw_carry_level(network, i, x + 4, y, ANCHOR_START);
}

/* ---- flags --------------------------------------------------------------------------------- */

/* The output pin's literal, or LITERAL_NONE. */
static Literal output(const Network *network, Pin pin, unsigned bit) {
    for (uint32_t k = 0; k < network->netlist.output_count; k++)
        if (network->netlist.outputs[k].pin == pin && network->netlist.outputs[k].bit == bit)
            return network->netlist.outputs[k].literal;
    return LITERAL_NONE;
}

/* A carry as its pin shows it: as it is, turned over, or as the control pins say. */
static void carry_rule(const Network *network, Flag flag, unsigned i, char *text, size_t size) {
    Literal carry = network->landmarks.carry[i];
    Literal pin = output(network, (Pin)(PIN_FLAG + (int)flag), 0);
    bool same = literal_node(pin) == literal_node(carry);
    snprintf(text, size, "%sc%u%s", pin == literal_not(carry) ? "not " : "", i,
             same ? "" : ", as control says");
}

/* The sum in the sign column may be left out: it and overflow differ where its half sum and the
 * last carry do. */
static bool sign_is_made(const Network *network) {
    return network->landmarks.sum[network->unit->width - 1] != LITERAL_NONE;
}

static Net sign_net(const Network *network) {
    unsigned sign = network->unit->width - 1;
    return sign_is_made(network) ? network->landmarks.sum[sign] : network->landmarks.half[sign];
}

/* What each flag is made of, from its definition. */
static void flag_rule(const Network *network, Flag flag, char *text, size_t size) {
    unsigned width = network->unit->width;
    switch (flag) {
    case FLAG_CARRY:
        carry_rule(network, flag, width, text, size);
        break;
    case FLAG_OVERFLOW:
        snprintf(text, size, "c%u, c%u differ", width, width - 1);
        break;
    case FLAG_ZERO:
        snprintf(text, size, "no bit is 1");
        break;
    case FLAG_NEGATIVE:
        snprintf(text, size, "bit %u", width - 1);
        break;
    case FLAG_LESS_SIGNED:
        if (sign_is_made(network))
            snprintf(text, size, "sum %u, overflow differ", width - 1);
        else
            snprintf(text, size, "half sum %u, c%u differ", width - 1, width);
        break;
    case FLAG_LESS_UNSIGNED:
        snprintf(text, size, "a borrow leaves");
        break;
    case FLAG_PARITY:
        snprintf(text, size, "odd number of 1s");
        break;
    default: /* half-carry */
        carry_rule(network, flag, 4, text, size);
    }
}

static bool any_flag(const Network *network) {
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (network->unit->flag[flag])
            return true;
    return false;
}

/* Does something in the flag row read the control pins? */
static bool flags_read_control(const Network *network) {
    const Netlist *netlist = &network->netlist;
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (!netlist_is_gate(node) || node->part != PART_FLAGS)
            continue;
        for (int side = 0; side < 2; side++) {
            const Node *read = &netlist->nodes[literal_node(node->in[side])];
            bool pin = read->kind == NODE_INPUT && read->pin != PIN_A && read->pin != PIN_B;
            if (pin || (netlist_is_gate(read) && read->part == PART_CONTROL))
                return true;
        }
    }
    return false;
}

/* An input of the box by its name, at the box's right edge. */
static void draw_named_input(const Network *network, double edge, double y, Net net,
                             const char *name) {
    scene_wire(network->scene, net, WIRE_PLAIN, edge + STUB, y);
    scene_to(network->scene, edge, y);
    scene_name(network->scene, edge + STUB + 4, y + 4, ANCHOR_START, net, "%.12s", name);
}

bool network_taps_sign(const Network *network) {
    const Unit *unit = network->unit;
    return unit->flag[FLAG_OVERFLOW] || unit->flag[FLAG_LESS_SIGNED] ||
           unit->overflow == OVERFLOW_SATURATE_SIGNED;
}

bool network_enters(const Network *network, unsigned column) {
    bool sign = column + 1 == network->unit->width;
    return network_varies(network->landmarks.carry[column]) &&
           (network->landmarks.sum[column] != LITERAL_NONE || (sign && network_taps_sign(network)));
}

/* The carry into the sign column, turned off above its sum. */
static bool draw_tap(const Network *network, double edge) {
    unsigned sign = network->unit->width - 1;
    Literal carry = network->landmarks.carry[sign];
    if (!network_taps_sign(network) || !network_varies(carry))
        return false;
    double x = network_x(network, (int)sign) + network->lane - 2 * GATE_INPUT;
    if (sign_is_made(network))
        scene_dot(network->scene, carry, x, network->tap);
    scene_wire(network->scene, carry,
               network->values != NULL && network_level(network, carry) ? WIRE_HEAVY : WIRE_PLAIN,
               x, network->tap);
    scene_to(network->scene, edge, network->tap);
    return true;
}

/* All inputs of the box; where the lowest of them is. */
static double draw_flag_inputs(Network *network, double edge) {
    const Unit *unit = network->unit;
    double y = network->tap;
    bool result = unit->flag[FLAG_ZERO] || unit->flag[FLAG_NEGATIVE] || unit->flag[FLAG_PARITY];
    if (!draw_tap(network, edge))
        y -= INPUT_GAP;
    if (unit->flag[FLAG_HALF_CARRY] && network_varies(network->landmarks.carry[4]))
        draw_named_input(network, edge, y += INPUT_GAP, network->landmarks.carry[4], "c4");
    if (unit->flag[FLAG_LESS_SIGNED])
        draw_named_input(network, edge, y += INPUT_GAP, sign_net(network),
                         sign_is_made(network) ? "sign of sum" : "half sum");
    if (flags_read_control(network) && network->line != LITERAL_NONE)
        draw_named_input(network, edge, y += INPUT_GAP, network->line, unit->pin[PIN_LINE]);
    else if (flags_read_control(network))
        draw_named_input(network, edge, y += INPUT_GAP, net_of_pin(PIN_COUNT), "control");
    if (result)
        draw_named_input(network, edge, y += INPUT_GAP, net_of_pin(PIN_RESULT),
                         unit->pin[PIN_RESULT]);
    return y;
}

static void draw_flag_outputs(Network *network, double left, double y) {
    bool registers = network->unit->registers != REGISTERS_NONE;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!network->unit->flag[flag])
            continue;
        Literal literal = output(network, (Pin)(PIN_FLAG + flag), 0);
        double to = left - STUB;
        scene_wire(network->scene, literal, WIRE_PLAIN, left, y);
        scene_to(network->scene, to, y);
        if (registers) {
            to -= ACROSS;
            scene_wire(network->scene, literal, WIRE_PLAIN, to, y);
            to -= STUB;
            scene_to(network->scene, to, y);
        }
        scene_name(network->scene, to - 4, y + 4, ANCHOR_END, literal, "%.24s",
                   network->unit->pin[PIN_FLAG + flag]);
        if (network->values != NULL)
            scene_value(network->scene, to + STUB / 2.0, y - 2, ANCHOR_MIDDLE, literal,
                        network_level(network, literal));
        y += FLAG_LINE;
    }
}

/* The rules of the flags, a line each. The caller frees them. */
static char *flag_rules(const Network *network, int *lines) {
    char *text = memory_text("%s", "");
    *lines = 0;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        char rule[64];
        if (!network->unit->flag[flag])
            continue;
        flag_rule(network, (Flag)flag, rule, sizeof rule);
        char *longer = memory_text("%s%s%s", text, (*lines)++ > 0 ? "\n" : "", rule);
        free(text);
        text = longer;
    }
    if (*lines == 0) {
        free(text);
        text = memory_text("out of range?");
        *lines = 1;
    }
    return text;
}

/* The box of the flags; its lower edge. */
static double draw_flags(Network *network) {
    const double edge = network_left(network) - NETWORK_LEFT;
    int lines = 0;
    char *rules = flag_rules(network, &lines);
    double lowest = draw_flag_inputs(network, edge);
    const double top = (network->last_track > 0 ? network->last_track : network->tap) - 12;
    double height = lowest + 12 - top;
    if (height < lines * FLAG_LINE + 10)
        height = lines * FLAG_LINE + 10;
    scene_box(
        network->scene,
        (Box){
            .symbol = SYMBOL_FRAME, .x = edge - FLAGS, .y = top, .width = FLAGS, .height = height},
        rules);
    if (network->unit->registers != REGISTERS_NONE && any_flag(network))
        scene_box(network->scene,
                  (Box){.symbol = SYMBOL_REGISTER,
                        .x = edge - FLAGS - STUB - ACROSS,
                        .y = top,
                        .width = ACROSS,
                        .height = height},
                  "");
    draw_flag_outputs(network, edge - FLAGS, top + height / 2 - (lines - 1) * FLAG_LINE / 2.0);
    free(rules);
    return top + height;
}

/* ---- the result ---------------------------------------------------------------------------- */

static double across_right(const Network *network, double left) {
    double right = network_x(network, 0) + network->lane + 10;
    return right < left + 90 ? left + 90 : right;
}

static void draw_across(Network *network, Symbol symbol, const char *label) {
    const double left = network_left(network);
    scene_box(network->scene,
              (Box){.symbol = symbol,
                    .x = left,
                    .y = network->y,
                    .width = across_right(network, left) - left,
                    .height = ACROSS},
              label);
    if (symbol == SYMBOL_REGISTER) {
        double y = network->y + ACROSS - 9;
        scene_wire(network->scene, net_of_pin(PIN_CLK), WIRE_PLAIN, left - 16, y);
        scene_to(network->scene, left, y);
        scene_name(network->scene, left - 20, y + 4, ANCHOR_END, net_of_pin(PIN_CLK), "%.24s",
                   network->unit->pin[PIN_CLK]);
    }
    network->y += ACROSS;
}

static void lead_all(Network *network, bool delivered, double from, double to) {
    for (unsigned i = 0; i < network->unit->width; i++) {
        Literal literal = delivered ? output(network, PIN_RESULT, i) : network->landmarks.sum[i];
        if (!network_shows(network, i) || literal == LITERAL_NONE)
            continue;
        network_lead(network, literal, WIRE_PLAIN, sum_x(network, i), from, to);
        network_value_beside(network, literal, sum_x(network, i), from + 11);
    }
}

/* What is said in saturation, from the box of the flags to the box that does it. */
static void draw_limits(const Network *network, double flags_end) {
    double x = network_left(network) - NETWORK_LEFT - 20, y = network->y + ACROSS / 2.0;
    scene_wire(network->scene, LITERAL_NONE, WIRE_PLAIN, x, flags_end);
    scene_to(network->scene, x, y);
    scene_to(network->scene, network_left(network), y);
}

static void draw_bar(Network *network) {
    const double left = network_left(network), right = across_right(network, left);
    const Unit *unit = network->unit;
    for (unsigned i = 0; i < unit->width; i++)
        if (network_shows(network, i))
            scene_name(network->scene, sum_x(network, i) - 4, network->y - 4, ANCHOR_END,
                       output(network, PIN_RESULT, i), "%u", i);
    scene_box(network->scene,
              (Box){.symbol = SYMBOL_FRAME,
                    .x = left,
                    .y = network->y,
                    .width = right - left,
                    .height = 4,
                    .shade = SHADE_BLACK},
              "");
    if (unit->width > 1)
        scene_name(network->scene, right + 8, network->y + 6, ANCHOR_START, net_of_pin(PIN_RESULT),
                   "%.24s[%u:0]", unit->pin[PIN_RESULT], unit->width - 1);
    else
        scene_name(network->scene, right + 8, network->y + 6, ANCHOR_START, net_of_pin(PIN_RESULT),
                   "%.24s", unit->pin[PIN_RESULT]);
    network->y += 4;
}

static void draw_result(Network *network, double flags_end) {
    const Unit *unit = network->unit;
    const struct {
        bool there;
        Symbol symbol;
        const char *label;
    } across[] = {{unit->overflow != OVERFLOW_WRAP, SYMBOL_FRAME, "saturate"},
                  {unit_can_idle(unit), SYMBOL_FRAME, "if active"},
                  {unit->registers != REGISTERS_NONE, SYMBOL_REGISTER, "registers"}};
    bool delivered = false;
    for (size_t k = 0; k < sizeof across / sizeof across[0]; k++) {
        if (!across[k].there)
            continue;
        double from = network->y;
        network->y = (from + 26 > flags_end + 12) ? from + 26 : flags_end + 12;
        lead_all(network, delivered, from, network->y);
        if (across[k].symbol == SYMBOL_FRAME && !delivered && unit->overflow != OVERFLOW_WRAP)
            draw_limits(network, flags_end);
        draw_across(network, across[k].symbol, across[k].label);
        delivered = true;
    }
    double from = network->y;
    network->y += 40;
    lead_all(network, true, from, network->y);
    draw_bar(network);
}

void network_draw_bottom(Network *network) {
    const Unit *unit = network->unit;
    Literal last = network->landmarks.carry[unit->width];
    for (unsigned i = 0; i < unit->width; i++)
        if (network_shows(network, i)) {
            draw_sum(network, i);
            draw_carry_name(network, i);
        }
    if (network_varies(last)) {
        double x = network_left(network) - NETWORK_LEFT, y = network->last_track - 6;
        scene_name(network->scene, x + 8, y, ANCHOR_START, last, "c%u", unit->width);
        draw_carry_level(network, unit->width, x + 60, y, ANCHOR_END);
    }
    network->y = network->top[network->row_count + 1] + GATE_ALONG;
    double flags_end = network->y - 100;
    if (any_flag(network) || unit->overflow != OVERFLOW_WRAP)
        flags_end = draw_flags(network);
    draw_result(network, flags_end);
    network->y = network->y > flags_end ? network->y : flags_end;
}
