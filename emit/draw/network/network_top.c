/* The upper part of a network picture: the pins, the operand row with its control lines, and the
 * columns. An operand that one control line turns over has a gate for it in every column; where
 * more is done to operands, it is done in a box. */
#include "draw/network/network.h"

enum {
    NAMES = 16,   /* the pins' names */
    STUB = 20,    /* of a pin, to the registers */
    BOX = 30,     /* an operand box's height */
    CONTROL = 84, /* the control box's width */
    PIN_LINE_GAP = 16,
};

static Literal input(const Network *network, Pin pin, unsigned bit) {
    const Netlist *netlist = &network->netlist;
    for (uint32_t k = 1; k < netlist->node_count && netlist->nodes[k].kind == NODE_INPUT; k++)
        if (netlist->nodes[k].pin == pin && netlist->nodes[k].bit == bit)
            return k * 2;
    return LITERAL_NONE;
}

static bool is_control(Pin pin) {
    return pin == PIN_LINE || pin == PIN_OP || (pin >= PIN_DO && pin <= PIN_CIN);
}

static int count_control(const Network *network) {
    int count = 0;
    for (int pin = 0; pin < PIN_COUNT; pin++)
        count += is_control((Pin)pin) && unit_has(network->unit, (Pin)pin);
    return count;
}

/* ---- what is done to the operands ---------------------------------------------------------- */

/* Is a literal the exclusive or of these two, or the complement of that? */
static bool is_turned(const Network *network, Literal literal, Literal pin, Literal line) {
    const Node *node = &network->netlist.nodes[literal_node(literal)];
    if (line == LITERAL_NONE || (node->kind != NODE_XOR && node->kind != NODE_XNOR))
        return false;
    uint32_t one = literal_node(node->in[0]), other = literal_node(node->in[1]);
    return (one == literal_node(pin) && other == literal_node(line)) ||
           (one == literal_node(line) && other == literal_node(pin));
}

static Coming coming(const Network *network, Literal literal, Literal pin) {
    if (!network_varies(literal))
        return COMES_NOT;
    if (pin == LITERAL_NONE)
        return COMES_CHOSEN;
    if (literal == pin)
        return COMES_STRAIGHT;
    if (literal == literal_not(pin))
        return COMES_INVERTED;
    return is_turned(network, literal, pin, network->line) ? COMES_TURNED : COMES_CHOSEN;
}

/* Column 0 shows how all columns have it, unless nothing there is read. */
static unsigned typical_column(const Network *network) {
    for (unsigned i = 0; i < network->unit->width; i++)
        if (network->netlist.core->x[i] != LITERAL_NONE &&
            network->netlist.core->y[i] != LITERAL_NONE)
            return i;
    return 0;
}

static bool at_pin(Coming coming) {
    return coming == COMES_NOT || coming == COMES_STRAIGHT;
}

/* Does the sum want x as it was before the line turned it over? */
static bool wants_plain(const Network *network, unsigned i) {
    return network_varies(network->netlist.core->turned) &&
           network_varies(network->netlist.core->added_x[i]);
}

/* So that gates and the names of pins have room. */
static void place_ports(Network *network) {
    network->x_port = -12;
    network->y_port = 12;
    network->plain_port = -20;
    if (network->comes_a == COMES_CHOSEN) {
        network->x_port = -8;
        network->y_port = 8;
    } else if (network->comes_a == COMES_TURNED) {
        network->x_port = -5;
        network->y_port = 13;
    } else if (network->comes_b == COMES_TURNED) {
        network->x_port = -17;
        network->y_port = 14;
    }
}

void network_choose_operands(Network *network) {
    const AdderCore *core = network->netlist.core;
    unsigned i = typical_column(network);
    network->line = input(network, PIN_LINE, 0);
    network->comes_a = coming(network, core->x[i], network->pin_a[i]);
    network->comes_b = coming(network, core->y[i], network->pin_b[i]);
    bool one = at_pin(network->comes_a) || at_pin(network->comes_b);
    if (!one || network->comes_a == COMES_CHOSEN || network->comes_b == COMES_CHOSEN)
        network->comes_a = network->comes_b = COMES_CHOSEN;
    bool first_is_made =
        network_varies(core->carry[0]) && core->carry[0] != input(network, PIN_CIN, 0);
    bool held = network->unit->registers == REGISTERS_BOTH && count_control(network) > 0;
    network->has_control = network->comes_a == COMES_CHOSEN || first_is_made || held;
    place_ports(network);
}

/* ---- pins ---------------------------------------------------------------------------------- */

/* Where a pin's wire is: above the first input of the gate that turns it over. */
static double pin_x(const Network *network, unsigned column, bool is_b) {
    Coming comes = is_b ? network->comes_b : network->comes_a;
    double x = network_x(network, (int)column) + (is_b ? network->y_port : network->x_port);
    if (comes == COMES_CHOSEN)
        return network_x(network, (int)column) + (is_b ? 12 : -12);
    return comes == COMES_TURNED ? x - GATE_INPUT : x;
}

static void draw_pin(Network *network, unsigned column, bool is_b, double y) {
    Literal literal = is_b ? network->pin_b[column] : network->pin_a[column];
    if (literal == LITERAL_NONE)
        return;
    double x = pin_x(network, column, is_b);
    /* Long numbers stand at two heights. */
    double raised = !is_b && network->unit->width > DRAW_COLUMNS_MAX ? 14 : 0;
    scene_name(network->scene, x, y - 4 - raised, ANCHOR_MIDDLE, literal, "%c%u", is_b ? 'b' : 'a',
               column);
    if (raised > 0)
        network_lead(network, literal, WIRE_PLAIN, x, y - raised, y);
    if (network->unit->registers == REGISTERS_BOTH)
        network_lead(network, literal, WIRE_PLAIN, x, y, y + STUB);
}

static void draw_pins(Network *network) {
    const Unit *unit = network->unit;
    network->y += NAMES + (unit->width > DRAW_COLUMNS_MAX ? 14 : 0);
    for (unsigned i = 0; i < unit->width; i++) {
        if (!network_shows(network, i))
            continue;
        draw_pin(network, i, false, network->y);
        draw_pin(network, i, true, network->y);
    }
    if (unit->registers != REGISTERS_BOTH)
        return;
    network->y += STUB;
    network_draw_across(network, SYMBOL_REGISTER, "registers");
}

/* ---- operands ------------------------------------------------------------------------------ */

static Net control_net(const Network *network) {
    return network->line != LITERAL_NONE ? network->line : net_of_pin(PIN_COUNT);
}

/* The heights of the operand row. */
typedef struct {
    double pins, plain, line, gate, gate_end;
} Heights;

static void draw_plain(Network *network, unsigned i, const Heights *heights) {
    if (!wants_plain(network, i) || network->comes_a == COMES_CHOSEN)
        return;
    Literal plain = network->netlist.core->added_x[i];
    double x = network_x(network, (int)i), from = pin_x(network, i, false);
    if (network_varies(network->netlist.core->x[i]))
        scene_dot(network->scene, plain, from, heights->plain);
    scene_wire(network->scene, plain, WIRE_PLAIN, from, heights->pins);
    scene_to(network->scene, from, heights->plain);
    scene_to(network->scene, x + network->plain_port, heights->plain);
    scene_to(network->scene, x + network->plain_port, network->columns_top);
}

/* One operand of a column, from its pin. */
static void draw_operand(Network *network, unsigned i, bool is_b, const Heights *heights) {
    Literal after = is_b ? network->netlist.core->y[i] : network->netlist.core->x[i];
    Literal before = is_b ? network->pin_b[i] : network->pin_a[i];
    Coming comes = is_b ? network->comes_b : network->comes_a;
    double x = network_x(network, (int)i) + (is_b ? network->y_port : network->x_port);
    if (before != LITERAL_NONE)
        network_value_beside(network, before, pin_x(network, i, is_b), heights->pins + 10);
    if (!network_varies(after) || comes == COMES_NOT)
        return;
    if (comes == COMES_STRAIGHT) {
        network_lead(network, before, WIRE_PLAIN, x, heights->pins, network->columns_top);
        return;
    }
    const Node *node = &network->netlist.nodes[literal_node(after)];
    bool inverts = (node->kind == NODE_XNOR) != literal_inverted(after);
    Box gate = {.symbol = comes == COMES_TURNED ? SYMBOL_GATE : SYMBOL_INVERTER,
                .x = x - GATE_ACROSS / 2.0,
                .y = heights->gate,
                .width = GATE_ACROSS,
                .height = GATE_ALONG,
                .facing = FACING_DOWN,
                .gate = inverts ? NODE_XNOR : NODE_XOR,
                .node = literal_node(after)};
    scene_box(network->scene, gate, "");
    network_lead(network, before, WIRE_PLAIN, pin_x(network, i, is_b), heights->pins,
                 heights->gate);
    if (comes == COMES_TURNED)
        network_lead(network, network->line, WIRE_PLAIN, x + GATE_INPUT, heights->line,
                     heights->gate);
    network_lead(network, after, WIRE_PLAIN, x, heights->gate_end, network->columns_top);
    network_value_beside(network, after, x, heights->gate_end + 11);
}

/* What a box gives a column. */
static void draw_from_box(Network *network, unsigned i, Literal literal, double port,
                          const Heights *heights) {
    double x = network_x(network, (int)i) + port;
    if (!network_varies(literal))
        return;
    network_lead(network, literal, WIRE_PLAIN, x, heights->gate_end, network->columns_top);
    if (port != network->plain_port)
        network_value_beside(network, literal, x, heights->gate_end + 11);
}

static void draw_operand_box(Network *network, unsigned i, const Heights *heights) {
    const double x = network_x(network, (int)i), half = network->lane + 1;
    scene_box(network->scene,
              (Box){.symbol = SYMBOL_FRAME,
                    .x = x - half,
                    .y = heights->gate,
                    .width = 2 * half,
                    .height = BOX},
              "X, Y");
    for (int is_b = 0; is_b < 2; is_b++) {
        Literal pin = is_b ? network->pin_b[i] : network->pin_a[i];
        if (pin == LITERAL_NONE)
            continue;
        network_lead(network, pin, WIRE_PLAIN, pin_x(network, i, is_b), heights->pins,
                     heights->gate);
        network_value_beside(network, pin, pin_x(network, i, is_b), heights->pins + 10);
    }
    network_lead(network, control_net(network), WIRE_PLAIN, x, heights->line, heights->gate);
    draw_from_box(network, i, network->netlist.core->x[i], network->x_port, heights);
    draw_from_box(network, i, network->netlist.core->y[i], network->y_port, heights);
    if (wants_plain(network, i))
        draw_from_box(network, i, network->netlist.core->added_x[i], network->plain_port, heights);
}

/* Where the control line is read in a column, or no number below the middle of the page. */
static bool reads_line(const Network *network, unsigned i, double *x) {
    *x = network_x(network, (int)i);
    if (network->comes_a == COMES_CHOSEN)
        return true;
    bool of_b = network->comes_b == COMES_TURNED;
    if (!of_b && network->comes_a != COMES_TURNED)
        return false;
    *x += (of_b ? network->y_port : network->x_port) + GATE_INPUT;
    return network_varies(of_b ? network->netlist.core->y[i] : network->netlist.core->x[i]);
}

/* ---- control ------------------------------------------------------------------------------- */

/* The control line across the columns, from the right. */
static void draw_line(Network *network, double right, double y) {
    double x, left = right;
    for (unsigned i = 0; i < network->unit->width; i++)
        if (network_shows(network, i) && reads_line(network, i, &x))
            left = x;
    if (left == right)
        return;
    for (unsigned i = 0; i < network->unit->width; i++)
        if (network_shows(network, i) && reads_line(network, i, &x) && x != left)
            scene_dot(network->scene, control_net(network), x, y);
    scene_wire(network->scene, control_net(network), WIRE_PLAIN, right, y);
    scene_to(network->scene, left, y);
}

/* A pin on the right, from its name to where its wire ends. */
static void draw_control_pin(Network *network, Pin pin, double to, double y) {
    Literal literal = input(network, pin, 0);
    double from = to + 34;
    scene_wire(network->scene, literal, WIRE_PLAIN, to, y);
    scene_to(network->scene, from, y);
    unsigned bits = unit_pin_bits(network->unit, pin);
    if (bits > 1)
        scene_name(network->scene, from + 4, y + 4, ANCHOR_START, literal, "%.24s[%u:0]",
                   network->unit->pin[pin], bits - 1);
    else
        scene_name(network->scene, from + 4, y + 4, ANCHOR_START, literal, "%.24s",
                   network->unit->pin[pin]);
    if (network->values != NULL && bits == 1)
        scene_value(network->scene, to + 20, y - 3, ANCHOR_MIDDLE, literal,
                    network_level(network, literal));
}

/* The box that decodes the control pins, with the control line on its left and the first carry
 * below. Returns its lower edge. */
static double draw_control_box(Network *network, double y) {
    const int pins = count_control(network);
    const double x = network_x(network, -1) - CONTROL / 2.0;
    const double height = PIN_LINE_GAP * (pins < 2 ? 2 : pins) + 8;
    scene_box(
        network->scene,
        (Box){.symbol = SYMBOL_FRAME, .x = x, .y = y - 16, .width = CONTROL, .height = height},
        network->unit->registers == REGISTERS_BOTH ? "control,\nregisters" : "control");
    int place = 0;
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (is_control((Pin)pin) && unit_has(network->unit, (Pin)pin))
            draw_control_pin(network, (Pin)pin, x + CONTROL, y - 16 + 12 + PIN_LINE_GAP * place++);
    draw_line(network, x, y);
    return y - 16 + height;
}

/* The first carry, down to where the columns end. */
static void draw_first(Network *network, double from) {
    const AdderCore *core = network->netlist.core;
    if (core->cell_count == 0 || core->cell[0].kind != CORE_FIRST ||
        !core_cell_is_there(&core->cell[0]))
        return;
    const double x = network_x(network, -1);
    const double to = network->columns_top + NETWORK_COLUMN;
    Literal first = core->carry[0];
    if (!network->has_control)
        scene_name(network->scene, x - 6, from - 4, ANCHOR_START, first, "%.16s",
                   network->unit->pin[PIN_CIN]);
    network_lead(network, network_net(&core->cell[0]),
                 network->on_path[0] ? WIRE_HEAVY : WIRE_PLAIN, x, from, to);
    network_value_beside(network, first, x, from + 11);
}

/* ---- the whole ----------------------------------------------------------------------------- */

static void draw_column(Network *network, unsigned i) {
    const double half = network->lane + 1;
    const CoreCell *cells = network->netlist.core->cell;
    const CoreCell *column = &cells[i + (cells[0].kind == CORE_FIRST)];
    bool carries = network_carries(network);
    bool generates = carries && network_varies(column->generates);
    bool passes = carries && network_varies(column->passes);
    scene_box(network->scene,
              (Box){.symbol = SYMBOL_FRAME,
                    .x = network_x(network, (int)i) - half,
                    .y = network->columns_top,
                    .width = 2 * half,
                    .height = NETWORK_COLUMN},
              generates && passes ? "g, p"
              : generates         ? "g"
              : passes            ? "p"
                                  : "");
}

static Heights choose_heights(const Network *network) {
    const double from = network->y + (network->values != NULL ? 14 : 4);
    bool chosen = network->comes_a == COMES_CHOSEN;
    bool straight = at_pin(network->comes_a) && at_pin(network->comes_b);
    Heights heights = {.pins = network->y, .plain = from + 4, .line = from + 14};
    heights.gate = chosen ? from + 26 : from + 24;
    heights.gate_end = heights.gate + (chosen ? BOX : GATE_ALONG);
    if (straight)
        heights.gate_end = from;
    return heights;
}

void network_draw_top(Network *network) {
    draw_pins(network);
    Heights heights = choose_heights(network);
    double first = network->y;
    if (heights.gate_end > heights.gate)
        network->operands = (heights.gate + heights.gate_end) / 2;
    network->columns_top = heights.gate_end + (network->values != NULL ? 16 : 12);
    if (network->has_control) {
        first = draw_control_box(network, heights.line);
        if (network->columns_top < first - 10)
            network->columns_top = first - 10;
    } else if (network->line != LITERAL_NONE) {
        bool first_enters = network_varies(network->netlist.core->carry[0]);
        double right = network_x(network, first_enters ? -1 : 0) + network->lane + 24;
        draw_line(network, right, heights.line);
        draw_control_pin(network, PIN_LINE, right, heights.line);
    }
    for (unsigned i = 0; i < network->unit->width; i++) {
        if (!network_shows(network, i))
            continue;
        if (network->comes_a == COMES_CHOSEN) {
            draw_operand_box(network, i, &heights);
        } else {
            draw_plain(network, i, &heights);
            draw_operand(network, i, false, &heights);
            draw_operand(network, i, true, &heights);
        }
        draw_column(network, i);
    }
    draw_first(network, first);
}
