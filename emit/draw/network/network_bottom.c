/* The lower part of a network picture: the sums, and what becomes of them on their way to the
 * result. */
#include "draw/network/network.h"

enum { ACROSS = 28 }; /* a box across the columns */

static const double ring = 17;

/* ---- sums ---------------------------------------------------------------------------------- */

static bool is_compared(const Network *network, unsigned carry) {
    return carry + 1 >= network->unit->width;
}

/* The level of a carry, ringed if it is one of the two that are compared. */
static void draw_carry_level(Network *network, unsigned i, double x, double y, Anchor anchor) {
    Literal carry = network->netlist.core->carry[i];
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
    const AdderCore *core = network->netlist.core;
    const double lane = network_x(network, (int)i) + network->lane;
    const double columns_end = network->columns_top + NETWORK_COLUMN;
    const double gate = network->top[network->row_count + 1];
    Literal half = core->half[i], carry = core->carry[i];
    if (!network_varies(half))
        return;
    if (network->values != NULL)
        scene_value(network->scene, lane + 3, columns_end + 11, ANCHOR_START, half,
                    network_level(network, half));
    if (!network_varies(carry) || core->sum[i] == LITERAL_NONE) {
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
                    .node = literal_node(core->sum[i])},
              "");
}

static void draw_carry_name(Network *network, unsigned i) {
    const double x = network_x(network, (int)i) + network->lane - 2 * GATE_INPUT;
    const double y = network->tap - 5;
    if (!network_enters(network, i))
        return;
    scene_name(network->scene, x - 3, y, ANCHOR_END, network->netlist.core->carry[i], "c%u", i);
    draw_carry_level(network, i, x + 4, y, ANCHOR_START);
}

bool network_enters(const Network *network, unsigned column) {
    bool sign = column + 1 == network->unit->width;
    return network_varies(network->netlist.core->carry[column]) &&
           (network->netlist.core->sum[column] != LITERAL_NONE ||
            (sign && network_taps_sign(network)));
}

/* ---- the result ---------------------------------------------------------------------------- */

static double across_right(const Network *network, double left) {
    double right = network_x(network, 0) + network->lane + 10;
    return right < left + 90 ? left + 90 : right;
}

void network_draw_across(Network *network, Symbol symbol, const char *label) {
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

/* The sum of a column, or what goes on where it is not made: the half sum. */
static Literal sum_of(const Network *network, unsigned i) {
    const AdderCore *core = network->netlist.core;
    return core->sum[i] == LITERAL_NONE ? core->half[i] : core->sum[i];
}

static void lead_all(Network *network, bool delivered, double from, double to) {
    for (unsigned i = 0; i < network->unit->width; i++) {
        Literal literal = delivered ? network_output(network, PIN_RESULT, i) : sum_of(network, i);
        if (!network_shows(network, i))
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
                       network_output(network, PIN_RESULT, i), "%u", i);
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
        network_draw_across(network, across[k].symbol, across[k].label);
        delivered = true;
    }
    double from = network->y;
    network->y += 40;
    lead_all(network, true, from, network->y);
    draw_bar(network);
}

void network_draw_bottom(Network *network) {
    const Unit *unit = network->unit;
    Literal last = network->netlist.core->carry[unit->width];
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
    const double flags_end = network_draw_flags(network);
    draw_result(network, flags_end);
    network->y = network->y > flags_end ? network->y : flags_end;
}
