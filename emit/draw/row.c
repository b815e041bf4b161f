/* The row picture: bands, columns and what lies across them. See row.h. */
#include "draw/row.h"

#include "base/memory.h"

#include <stdlib.h>
#include <string.h>

/* ---- wires and their levels ---------------------------------------------------------------- */

void row_lead(Row *row, Literal literal, double x, double from, double to) {
    scene_wire(row->scene, literal, WIRE_PLAIN, x, from);
    scene_to(row->scene, x, to);
    if (row->values != NULL && to - from >= 16)
        scene_value(row->scene, x + 3, from + 12, ANCHOR_START, literal, row_level(row, literal));
}

void row_level_above(Row *row, Literal literal, double x, double y) {
    if (row->values != NULL)
        scene_value(row->scene, x, y - 4, ANCHOR_START, literal, row_level(row, literal));
}

/* Is this the stem of the carries of a chain, whatever form it has? */
static bool is_carry(const char *stem) {
    return strcmp(stem, "carry") == 0 || strcmp(stem, "chain") == 0 || strcmp(stem, "borrow") == 0;
}

char *row_name(const Row *row, Literal literal) {
    const Node *node = &row->build.netlist.nodes[literal_node(literal)];
    const char *turned = literal_inverted(literal) ? "not " : "";
    if (literal_is_constant(literal))
        return memory_text("%d", literal == LITERAL_1);
    if (netlist_is_gate(node) && is_carry(node->stem))
        return memory_text("%sc%d", turned, node->index);
    if (netlist_is_gate(node))
        return node->index < 0 ? memory_text("%s%s", turned, node->stem)
                               : memory_text("%s%s%d", turned, node->stem, node->index);
    if (node->pin == PIN_A || node->pin == PIN_B)
        return memory_text("%s%c%u", turned, node->pin == PIN_A ? 'a' : 'b', node->bit);
    const char *name = row->unit->pin[node->pin];
    char *whole = unit_pin_bits(row->unit, node->pin) > 1
                      ? memory_text("%s%.24s[%u]", turned, name, node->bit)
                      : memory_text("%s%.24s", turned, name);
    return whole;
}

/* A constant at the top of an adder. */
static void draw_constant(Row *row, Literal literal, double x, double y) {
    scene_name(row->scene, x, y - 12, ANCHOR_MIDDLE, literal, "%d", literal == LITERAL_1);
    scene_wire(row->scene, literal, WIRE_PLAIN, x, y - 9);
    scene_to(row->scene, x, y);
}

/* ---- the operand row ------------------------------------------------------------------------ */

static Box gate_at(Symbol symbol, NodeKind kind, double middle, double top) {
    return (Box){.symbol = symbol,
                 .x = middle - GATE_ACROSS / 2.0,
                 .y = top,
                 .width = GATE_ACROSS,
                 .height = GATE_ALONG,
                 .facing = FACING_DOWN,
                 .gate = kind};
}

static RowLine *find_line(Row *row, Literal literal, bool selects_b) {
    for (int k = 0; k < row->line_count; k++)
        if (row->line[k].literal == literal && row->line[k].selects_b == selects_b)
            return &row->line[k];
    return NULL;
}

/* From a line down to where it is read. */
static void tap(Row *row, RowLine *line, double x, double to) {
    line->left = x < line->left ? x : line->left;
    scene_dot(row->scene, line->literal, x, line->y);
    scene_wire(row->scene, line->literal, WIRE_PLAIN, x, line->y);
    scene_to(row->scene, x, to);
}

/* Where the rows of gates stand, by what there is in them. */
typedef struct {
    bool selects, inverts;
    double pins;   /* where the pins' wires begin */
    double select; /* tops of the gates */
    double invert;
    double adder;
} Rows;

static bool varies(Literal literal) {
    return !literal_is_constant(literal);
}

/* Gates stand on the wire of their output; the input that is data is GATE_INPUT left of it, so the
 * wire above is, too. */
static double data_x(const Row *row, const Rows *rows, bool is_b, double x) {
    Literal invert = row_signal(row, is_b ? SIGNAL_INVERT_B : SIGNAL_INVERT_A);
    if (!row->borrow_form && varies(invert))
        x -= GATE_INPUT;
    if (is_b && rows->selects)
        x -= GATE_INPUT;
    return x;
}

/* The gate that turns an operand over, or the wire instead; from is where the wire above ends. */
static void draw_inversion(Row *row, const Rows *rows, bool is_b, double x, double from,
                           Literal before, Literal after) {
    Literal invert = row_signal(row, is_b ? SIGNAL_INVERT_B : SIGNAL_INVERT_A);
    if (row->borrow_form || invert == LITERAL_0) {
        row_lead(row, before, x, from, rows->adder);
        return;
    }
    if (invert == LITERAL_1) {
        row_lead(row, before, x, from, rows->invert);
        scene_box(row->scene, gate_at(SYMBOL_INVERTER, NODE_AND, x, rows->invert), "");
    } else {
        row_lead(row, before, x - GATE_INPUT, from, rows->invert);
        Box box = gate_at(SYMBOL_GATE, NODE_XOR, x, rows->invert);
        box.node = literal_node(after);
        scene_box(row->scene, box, "");
        tap(row, find_line(row, invert, false), x + GATE_INPUT, rows->invert);
    }
    row_lead(row, after, x, rows->invert + GATE_ALONG, rows->adder);
}

static void draw_a(Row *row, const Rows *rows, unsigned i) {
    double x = row_middle(row, i) - ROW_OPERAND;
    draw_inversion(row, rows, false, x, rows->pins, row->build.operands.a[i],
                   row->build.operands.x[i]);
}

/* Y where no operation reads b: a constant, or the line itself. */
static void draw_no_b(Row *row, const Rows *rows, unsigned i) {
    double x = row_middle(row, i) + ROW_OPERAND;
    Literal y = row->build.operands.y[i];
    if (row->borrow_form || !varies(y))
        draw_constant(row, row->borrow_form ? LITERAL_0 : y, x, rows->adder);
    else
        tap(row, find_line(row, row_signal(row, SIGNAL_INVERT_B), false), x, rows->adder);
}

static void draw_b(Row *row, const Rows *rows, unsigned i) {
    double x = row_middle(row, i) + ROW_OPERAND, from = rows->pins;
    Literal used = row->build.operands.b[i];
    if (row_signal(row, SIGNAL_USE_B) == LITERAL_0) {
        draw_no_b(row, rows, i);
        return;
    }
    if (rows->selects) {
        double data = data_x(row, rows, true, x);
        row_lead(row, row->pin_b[i], data, from, rows->select);
        Box box = gate_at(SYMBOL_GATE, NODE_AND, data + GATE_INPUT, rows->select);
        box.node = literal_node(used);
        scene_box(row->scene, box, "");
        tap(row, find_line(row, row_signal(row, SIGNAL_USE_B), true), data + 2 * GATE_INPUT,
            rows->select);
        from = rows->select + GATE_ALONG;
    }
    draw_inversion(row, rows, true, x, from, used, row->build.operands.y[i]);
}

/* The adders in borrow form are told which operand to turn over. */
static void draw_turns(Row *row, const Rows *rows, unsigned i) {
    for (int k = 0; k < row->line_count; k++)
        if (row->borrow_form && !row->line[k].selects_b)
            tap(row, &row->line[k], row_middle(row, i) + (k % 2 == 0 ? 4 : -4), rows->adder);
}

/* ---- the adders ------------------------------------------------------------------------------ */

/* How many of a column's three inputs are no constant. */
static int inputs_of(const Row *row, unsigned i) {
    const Operands *operands = &row->build.operands;
    Literal x = row->borrow_form ? operands->a[i] : operands->x[i];
    Literal y = row->borrow_form ? operands->b[i] : operands->y[i];
    return varies(x) + varies(y) + varies(row->build.adder.carry[i]);
}

static const char *adder_label(const Row *row, unsigned i) {
    static const char *const labels[][2] = {{"HA", "FA"}, {"HS", "FS"}, {"HA/S", "FA/S"}};
    Literal turned = row->build.adder.turned;
    int form = !row->borrow_form ? 0 : turned == LITERAL_1 ? 1 : 2;
    return labels[form][inputs_of(row, i) == 3];
}

static WireStyle carry_style(const Row *row, Literal carry) {
    return row->values != NULL && row_level(row, carry) ? WIRE_HEAVY : WIRE_PLAIN;
}

/* What a column hands on: to the left, the last one as it is read there. */
static Literal carry_of(const Row *row, unsigned i) {
    const Adder *adder = &row->build.adder;
    bool leaves = i == row->unit->width && adder->leaving != LITERAL_NONE;
    return leaves ? adder->leaving : adder->carry[i];
}

static bool is_compared(const Row *row, unsigned carry) {
    return carry + 1 >= row->unit->width && row->build.adder.leaving == LITERAL_NONE;
}

/* The carry that enters column i, from the box on the right or from beyond the band; the one that
 * leaves the band comes to an end beside it. */
static void draw_carry(Row *row, unsigned i) {
    Literal carry = carry_of(row, i);
    bool leaves = i == row->top;
    double gap = row_pitch(row) - ROW_BOX;
    double to = row_left(row) + gap / 2, from = to - gap;
    if (!leaves) {
        from = row_middle(row, i) + ROW_BOX / 2.0;
        to = from + gap;
    }
    double name = (from + to) / 2;
    scene_wire(row->scene, carry, carry_style(row, carry), to, row->adders);
    scene_to(row->scene, from, row->adders);
    scene_name(row->scene, name, row->adders + 13, ANCHOR_MIDDLE, carry, "c%u", i);
    if (row->values == NULL)
        return;
    scene_value(row->scene, name, row->adders - 8, ANCHOR_MIDDLE, carry, row_level(row, carry));
    if (is_compared(row, i))
        scene_mark(row->scene, (Mark){MARK_COMPARED, name, row->adders - 11.5, 18, 18, carry});
}

static void draw_adder(Row *row, const Rows *rows, unsigned i) {
    Box box = {.symbol = SYMBOL_FRAME,
               .x = row_middle(row, i) - ROW_BOX / 2.0,
               .y = rows->adder,
               .width = ROW_BOX,
               .height = ROW_BOX_HEIGHT};
    scene_box(row->scene, box, adder_label(row, i));
}

/* ---- across the columns ---------------------------------------------------------------------- */

/* A box as wide as the band; a register has its clock at the left edge, or if it faces left at the
 * right one. */
static void draw_across(Row *row, Symbol symbol, Facing facing, double height, const char *label) {
    bool at_right = facing == FACING_LEFT;
    Box box = {.symbol = symbol,
               .x = row_left(row) + 4,
               .y = row->y,
               .width = -row_left(row) - 8,
               .height = height,
               .facing = facing};
    scene_box(row->scene, box, label);
    if (symbol == SYMBOL_REGISTER) {
        double clock = row->y + height - 9;
        double edge = at_right ? box.x + box.width : box.x, end = at_right ? edge + 16 : edge - 16;
        scene_wire(row->scene, net_of_pin(PIN_CLK), WIRE_PLAIN, edge, clock);
        scene_to(row->scene, end, clock);
        scene_name(row->scene, at_right ? end + 4 : end - 4, clock + 4,
                   at_right ? ANCHOR_START : ANCHOR_END, net_of_pin(PIN_CLK), "%.24s",
                   row->unit->pin[PIN_CLK]);
    }
    row->y += height;
}

/* What a box across is told, by name at its right edge: the level of a gate named so. */
static void draw_told(Row *row, Literal literal, double y) {
    char *name = row_name(row, literal);
    scene_wire(row->scene, literal, WIRE_PLAIN, 20, y);
    scene_to(row->scene, -4, y);
    scene_name(row->scene, 24, y + 4, ANCHOR_START, literal, "%s", name);
    row_level_above(row, literal, 6, y);
    free(name);
}

Literal row_named(const Row *row, const char *stem) {
    const Netlist *netlist = &row->build.netlist;
    for (uint32_t k = netlist->node_count; k-- > 1;)
        if (netlist_is_gate(&netlist->nodes[k]) && netlist->nodes[k].stem != NULL &&
            strcmp(netlist->nodes[k].stem, stem) == 0)
            return k * 2;
    return LITERAL_NONE;
}

/* Saturation is told that the result is too high, or too low; or below zero, which then is all it
 * needs to know. */
static void draw_saturation(Row *row, double top) {
    Literal high = row_named(row, "too_high"), low = row_named(row, "too_low");
    if (low == LITERAL_NONE)
        low = row_named(row,
                        row->unit->overflow == OVERFLOW_SATURATE_SIGNED ? "below_zero" : "borrows");
    if (high != LITERAL_NONE)
        draw_told(row, high, top + 8);
    if (low != LITERAL_NONE)
        draw_told(row, low, top + 26);
}

static void draw_pins(Row *row, Rows *rows) {
    bool has_b = unit_has(row->unit, PIN_B);
    bool staggered = row->unit->width > DRAW_COLUMNS_MAX; /* long numbers */
    row->y += 28;
    for (unsigned i = row->low; i < row->top; i++) {
        double x = row_middle(row, i);
        double a = data_x(row, rows, false, x - ROW_OPERAND);
        double b = data_x(row, rows, true, x + ROW_OPERAND);
        Literal literal = row->build.operands.a[i];
        if (staggered) {
            scene_wire(row->scene, literal, WIRE_PLAIN, a, row->y - 14);
            scene_to(row->scene, a, row->y);
        }
        scene_name(row->scene, a, row->y - (staggered ? 18 : 4), ANCHOR_MIDDLE, literal, "a%u", i);
        if (has_b)
            scene_name(row->scene, b, row->y - 4, ANCHOR_MIDDLE, row->pin_b[i], "b%u", i);
        if (row->unit->registers != REGISTERS_BOTH)
            continue;
        row_lead(row, literal, a, row->y, row->y + 20);
        if (has_b)
            row_lead(row, row->pin_b[i], b, row->y, row->y + 20);
    }
    if (row->unit->registers == REGISTERS_BOTH) {
        row->y += 20;
        draw_across(row, SYMBOL_REGISTER, FACING_RIGHT, 28, "registers");
    }
    rows->pins = row->y;
}

/* Puts lines and gates at their heights. */
static void place_rows(Row *row, Rows *rows) {
    double y = rows->pins;
    for (int level = 0; level < 2; level++) {
        bool selects = level == 0, any = false;
        for (int k = 0; k < row->line_count; k++)
            if (row->line[k].selects_b == selects) {
                row->line[k].left = 0;
                row->line[k].y = any ? y + ROW_LINE_GAP : y + 26;
                y = row->line[k].y;
                any = true;
            }
        bool gates = selects ? rows->selects : rows->inverts;
        double top = y + (any ? 10 : 22);
        *(selects ? &rows->select : &rows->invert) = top;
        y = gates ? top + GATE_ALONG : y;
    }
    rows->adder = y + 28;
    row->adders = rows->adder + ROW_BOX_HEIGHT / 2.0;
}

static Literal output_literal(const Row *row, Pin pin, unsigned bit) {
    const Netlist *netlist = &row->build.netlist;
    for (uint32_t k = 0; k < netlist->output_count; k++)
        if (netlist->outputs[k].pin == pin && netlist->outputs[k].bit == bit)
            return netlist->outputs[k].literal;
    return LITERAL_0;
}

/* Sums, what is done to them, and the result as a bar. Results are the first outputs, in order. */
static void draw_result(Row *row) {
    const Unit *unit = row->unit;
    Literal active = row_signal(row, SIGNAL_ACTIVE);
    const struct {
        bool there;
        Symbol symbol;
        double height;
        const char *label;
    } across[] = {{unit->overflow != OVERFLOW_WRAP, SYMBOL_FRAME, 34, "saturate"},
                  {varies(active), SYMBOL_FRAME, 28, "if active"},
                  {unit->registers != REGISTERS_NONE, SYMBOL_REGISTER, 28, "registers"}};
    double from = row->y;
    bool changed = false;
    row->y += 54;
    for (size_t k = 0; k < sizeof across / sizeof across[0]; k++) {
        if (!across[k].there)
            continue;
        for (unsigned i = row->low; i < row->top; i++)
            row_lead(row, changed ? output_literal(row, PIN_RESULT, i) : row->build.adder.sum[i],
                     row_middle(row, i), from, row->y);
        if (k == 0)
            draw_saturation(row, row->y);
        if (k == 1)
            draw_told(row, active, row->y + 14);
        draw_across(row, across[k].symbol, FACING_LEFT, across[k].height, across[k].label);
        changed = changed || across[k].symbol != SYMBOL_REGISTER;
        from = row->y;
        row->y += 26;
    }
    for (unsigned i = row->low; i < row->top; i++) {
        Literal literal = output_literal(row, PIN_RESULT, i);
        row_lead(row, literal, row_middle(row, i), from, row->y);
        scene_name(row->scene, row_middle(row, i) - 4, row->y - 4, ANCHOR_END, literal, "%u", i);
    }
    scene_box(row->scene,
              (Box){.symbol = SYMBOL_FRAME,
                    .x = row_left(row) + 4,
                    .y = row->y,
                    .width = -row_left(row) - 8,
                    .height = 4,
                    .shade = SHADE_BLACK},
              "");
    if (row->top - row->low > 1)
        scene_name(row->scene, 8, row->y + 6, ANCHOR_START, net_of_pin(PIN_RESULT), "%.24s[%u:%u]",
                   unit->pin[PIN_RESULT], row->top - 1, row->low);
    else
        scene_name(row->scene, 8, row->y + 6, ANCHOR_START, net_of_pin(PIN_RESULT), "%.24s[%u]",
                   unit->pin[PIN_RESULT], row->low);
    row->y += 24;
}

/* ---- bands ----------------------------------------------------------------------------------- */

static void draw_band(Row *row) {
    Rows rows = {.selects = varies(row_signal(row, SIGNAL_USE_B)),
                 .inverts = !row->borrow_form && (row_signal(row, SIGNAL_INVERT_A) != LITERAL_0 ||
                                                  (row_signal(row, SIGNAL_INVERT_B) != LITERAL_0 &&
                                                   row_signal(row, SIGNAL_USE_B) != LITERAL_0))};
    draw_pins(row, &rows);
    place_rows(row, &rows);
    for (unsigned i = row->low; i < row->top; i++) {
        draw_a(row, &rows, i);
        draw_b(row, &rows, i);
        draw_turns(row, &rows, i);
        draw_adder(row, &rows, i);
        draw_carry(row, i);
    }
    draw_carry(row, row->top);
    row_draw_lines(row);
    if (row->low == 0)
        row_draw_sources(row);
    row->y = rows.adder + ROW_BOX_HEIGHT;
    draw_result(row);
    if (row->top == row->unit->width)
        row_draw_flags(row);
}

/* As many columns as each band has: all alike, in fours, the highest with what is left. */
static unsigned band_of(unsigned width) {
    if (width > DRAW_COLUMNS_MAX || width <= ROW_BAND)
        return ROW_BAND;
    return ((width + 1) / 2 + 3) / 4 * 4;
}

static void draw_bands(Row *row) {
    unsigned width = row->unit->width, band = band_of(width);
    for (row->low = 0; row->low < width; row->low = row->top) {
        row->top = width - row->low > band ? row->low + band : width;
        draw_band(row);
        row->y += 16;
        if (width > DRAW_COLUMNS_MAX && row->low == 0) {
            row->top = width - band;
            scene_text(row->scene, row_left(row) + 4, row->y, ANCHOR_START, TEXT_BOLD,
                       "... %u columns like these, %u to %u, are left out ...", row->top - band,
                       band, row->top - 1);
            row->y += 32;
        }
    }
}

/* ---- the whole ------------------------------------------------------------------------------- */

static void find_pins(Row *row) {
    const Netlist *netlist = &row->build.netlist;
    row->pin_b = memory_zeroed(row->unit->width, sizeof row->pin_b[0]);
    for (uint32_t k = 1; k < netlist->node_count; k++)
        if (netlist->nodes[k].kind == NODE_INPUT && netlist->nodes[k].pin == PIN_B)
            row->pin_b[netlist->nodes[k].bit] = k * 2;
}

char *row_draw(const Unit *unit, const Working *example, Scene *scene) {
    Row row = {.unit = unit, .example = example, .scene = scene};
    build_open(unit, &row.build);
    row.values = values_of(&row.build.netlist, example);
    row.borrow_form = row.build.adder.turned != LITERAL_0;
    find_pins(&row);
    row_choose_lines(&row);
    draw_bands(&row);
    row_draw_notes(&row);
    char *words = row_describe(&row);
    free(row.values);
    free(row.pin_b);
    build_close(&row.build);
    return words;
}
