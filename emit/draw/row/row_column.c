/* The columns of the row picture: pins, operand row, adder box and carry. See row.h. */
#include "draw/row/row.h"

#include "write/svg.h"

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

/* Gates stand on the wire of their output; the input that is data is GATE_INPUT left of it, so the
 * wire above is, too. */
static double data_x(const Row *row, const RowPlaces *rows, bool is_b, double x) {
    Literal invert = row_signal(row, is_b ? SIGNAL_INVERT_B : SIGNAL_INVERT_A);
    if (!row->borrow_form && row_varies(invert))
        x -= GATE_INPUT;
    if (is_b && rows->selects)
        x -= GATE_INPUT;
    return x;
}

/* The gate that turns an operand over, or the wire instead; from is where the wire above ends. */
static void draw_inversion(Row *row, const RowPlaces *rows, bool is_b, double x, double from,
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

static void draw_a(Row *row, const RowPlaces *rows, unsigned i) {
    double x = row_middle(row, i) - ROW_OPERAND;
    draw_inversion(row, rows, false, x, rows->pins, row->build.operands.a[i],
                   row->build.operands.x[i]);
}

/* Y where no operation reads b: a constant, or the line itself. */
static void draw_no_b(Row *row, const RowPlaces *rows, unsigned i) {
    double x = row_middle(row, i) + ROW_OPERAND;
    Literal y = row->build.operands.y[i];
    if (row->borrow_form || !row_varies(y))
        draw_constant(row, row->borrow_form ? LITERAL_0 : y, x, rows->adder);
    else
        tap(row, find_line(row, row_signal(row, SIGNAL_INVERT_B), false), x, rows->adder);
}

static void draw_b(Row *row, const RowPlaces *rows, unsigned i) {
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
static void draw_turns(Row *row, const RowPlaces *rows, unsigned i) {
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
    return row_varies(x) + row_varies(y) + row_varies(row->build.adder.carry[i]);
}

static const char *adder_label(const Row *row, unsigned i) {
    static const char *const labels[][2] = {{"HA", "FA"}, {"HS", "FS"}, {"HA/S", "FA/S"}};
    Literal turned = row->build.adder.turned;
    int form = !row->borrow_form ? 0 : turned == LITERAL_1 ? 1 : 2;
    return labels[form][inputs_of(row, i) == 3];
}

static void draw_adder(Row *row, const RowPlaces *rows, unsigned i) {
    Box box = {.symbol = SYMBOL_FRAME,
               .x = row_middle(row, i) - ROW_BOX / 2.0,
               .y = rows->adder,
               .width = ROW_BOX,
               .height = ROW_BOX_HEIGHT};
    scene_box(row->scene, box, adder_label(row, i));
}

void row_draw_column(Row *row, const RowPlaces *rows, unsigned i) {
    draw_a(row, rows, i);
    draw_b(row, rows, i);
    draw_turns(row, rows, i);
    draw_adder(row, rows, i);
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
void row_draw_carry(Row *row, unsigned i) {
    Literal carry = carry_of(row, i);
    bool leaves = i == row->top;
    double gap = row_pitch(row) - ROW_BOX;
    double to = row_left(row) + gap / 2, from = to - gap;
    if (!leaves) {
        from = row_middle(row, i) + ROW_BOX / 2.0;
        to = from + gap;
    }
    bool tapped = i + 1 == row->unit->width && row->unit->flag[FLAG_OVERFLOW];
    double name = (from + to) / 2 + (tapped ? 2 : 0); /* beside the wire down to the flags */
    scene_wire(row->scene, carry, carry_style(row, carry), to, row->adders);
    scene_to(row->scene, from, row->adders);
    scene_name(row->scene, name, row->adders + 13, ANCHOR_MIDDLE, carry, "c%u", i);
    if (row->values == NULL)
        return;
    scene_value(row->scene, name, row->adders - 8, ANCHOR_MIDDLE, carry, row_level(row, carry));
    if (is_compared(row, i))
        scene_mark(row->scene, (Mark){MARK_COMPARED, name, row->adders - 11.5, 18, 18, carry});
}

/* Are the names of a and b too long to stand side by side? */
static bool are_close(const Row *row, const RowPlaces *rows) {
    char name[16];
    snprintf(name, sizeof name, "b%u", row->top - 1);
    double a = data_x(row, rows, false, -ROW_OPERAND), b = data_x(row, rows, true, ROW_OPERAND);
    return svg_text_width(name, scene_text_size(TEXT_PLAIN)) + 2 > b - a;
}

void row_draw_pins(Row *row, RowPlaces *rows) {
    bool has_b = unit_has(row->unit, PIN_B);
    bool staggered = has_b && are_close(row, rows);
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
        row_draw_across(row, SYMBOL_REGISTER, FACING_RIGHT, 28, "registers");
    }
    rows->pins = row->y;
}

/* Puts lines and gates at their heights. */
void row_place(Row *row, RowPlaces *rows) {
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
