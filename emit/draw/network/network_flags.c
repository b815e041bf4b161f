/* The flags of a network picture: a box on the left, where the last carry leaves, with the rule of
 * each flag. The carries that are compared come as wires, the rest by name. */
#include "draw/network/network.h"

#include "base/memory.h"
#include "write/svg.h"

#include <stdio.h>
#include <stdlib.h>

enum {
    WIDTH = 90,     /* of the box, at least */
    MARGIN = 16,    /* beside its words */
    LINE = 14,      /* a flag's */
    INPUT_GAP = 18, /* from input to input */
    STUB = 28,
    REGISTER = 28,
};

Literal network_output(const Network *network, Pin pin, unsigned bit) {
    for (uint32_t k = 0; k < network->netlist.output_count; k++)
        if (network->netlist.outputs[k].pin == pin && network->netlist.outputs[k].bit == bit)
            return network->netlist.outputs[k].literal;
    return LITERAL_NONE;
}

/* A carry as its pin shows it: as it is, turned over, or as the control pins say. */
static void carry_rule(const Network *network, Flag flag, unsigned i, char *text, size_t size) {
    Literal carry = network->netlist.core->carry[i];
    Literal pin = network_output(network, (Pin)(PIN_FLAG + (int)flag), 0);
    bool same = literal_node(pin) == literal_node(carry);
    snprintf(text, size, "%sc%u%s", pin == literal_not(carry) ? "not " : "", i,
             same ? "" : ", as control says");
}

/* The sum in the sign column may be left out: it and overflow differ where its half sum and the
 * last carry do. */
static bool sign_is_made(const Network *network) {
    return network->netlist.core->sum[network->unit->width - 1] != LITERAL_NONE;
}

static Net sign_net(const Network *network) {
    unsigned sign = network->unit->width - 1;
    return sign_is_made(network) ? network->netlist.core->sum[sign]
                                 : network->netlist.core->half[sign];
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

/* The carry into the sign column, turned off above its sum. */
static bool draw_tap(const Network *network, double edge) {
    unsigned sign = network->unit->width - 1;
    Literal carry = network->netlist.core->carry[sign];
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
    if (unit->flag[FLAG_HALF_CARRY] && network_varies(network->netlist.core->carry[4]))
        draw_named_input(network, edge, y += INPUT_GAP, network->netlist.core->carry[4], "c4");
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
        Literal literal = network_output(network, (Pin)(PIN_FLAG + flag), 0);
        double to = left - STUB;
        scene_wire(network->scene, literal, WIRE_PLAIN, left, y);
        scene_to(network->scene, to, y);
        if (registers) {
            to -= REGISTER;
            scene_wire(network->scene, literal, WIRE_PLAIN, to, y);
            to -= STUB;
            scene_to(network->scene, to, y);
        }
        scene_name(network->scene, to - 4, y + 4, ANCHOR_END, literal, "%.24s",
                   network->unit->pin[PIN_FLAG + flag]);
        if (network->values != NULL)
            scene_value(network->scene, to + STUB / 2.0, y - 2, ANCHOR_MIDDLE, literal,
                        network_level(network, literal));
        y += LINE;
    }
}

/* The rules of the flags, a line each, and how wide they are. The caller frees them. */
static char *flag_rules(const Network *network, int *lines, double *width) {
    char *text = memory_text("%s", "");
    *lines = 0;
    *width = WIDTH;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        char rule[64];
        if (!network->unit->flag[flag])
            continue;
        flag_rule(network, (Flag)flag, rule, sizeof rule);
        double wide = svg_text_width(rule, scene_text_size(TEXT_PLAIN)) + MARGIN;
        *width = wide > *width ? wide : *width;
        char *longer = memory_text("%s%s%s", text, (*lines)++ > 0 ? "\n" : "", rule);
        free(text);
        text = longer;
    }
    if (*lines == 0) {
        free(text);
        text = memory_text("out of\nrange?");
        *lines = 2;
    }
    return text;
}

double network_draw_flags(Network *network) {
    if (!any_flag(network) && network->unit->overflow == OVERFLOW_WRAP)
        return 0;
    int lines = 0;
    double width = 0;
    char *rules = flag_rules(network, &lines, &width);
    const double edge = network_left(network) - NETWORK_LEFT, left = edge - width;
    const double lowest = draw_flag_inputs(network, edge);
    const double top = (network->last_track > 0 ? network->last_track : network->tap) - 12;
    double height = lowest + 12 - top;
    if (height < lines * LINE + 10)
        height = lines * LINE + 10;
    scene_box(network->scene,
              (Box){.symbol = SYMBOL_FRAME, .x = left, .y = top, .width = width, .height = height},
              rules);
    free(rules);
    if (network->unit->registers != REGISTERS_NONE && any_flag(network))
        scene_box(network->scene,
                  (Box){.symbol = SYMBOL_REGISTER,
                        .x = left - STUB - REGISTER,
                        .y = top,
                        .width = REGISTER,
                        .height = height},
                  "");
    draw_flag_outputs(network, left, top + height / 2 - (lines - 1) * LINE / 2.0);
    return top + height;
}
