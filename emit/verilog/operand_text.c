/* The control signals and the operand row as text: what operands.v, operators.v and cells.v name.
 * The levels of the signals are those of the gates' table (gates/operands.h). */
#include "base/text.h"
#include "gates/flags.h"
#include "verilog/design.h"

/* ---- control signals ---------------------------------------------------------------------- */

/* Is the signal read anywhere? One that is not must not be declared. */
static bool is_read(const Unit *unit, Signal signal) {
    bool borrow = unit->sense == SENSE_BORROW;
    if (signal == SIGNAL_USE_CIN)
        return operands_signal(unit, SIGNAL_SET_CARRY).level != LEVEL_1;
    if (signal == SIGNAL_INVERT_CIN)
        return operands_signal(unit, SIGNAL_USE_CIN).level != LEVEL_0;
    if (signal == SIGNAL_SUBTRACTING)
        return unit->flag[FLAG_LESS_UNSIGNED] || unit->overflow == OVERFLOW_SATURATE_UNSIGNED ||
               (borrow && (unit->flag[FLAG_CARRY] || unit->flag[FLAG_HALF_CARRY]));
    return signal <= SIGNAL_ACTIVE; /* the borrow form is for gates alone */
}

/* What says that a choice is asked for: its request, or the decode line of its code. */
static const char *line_of(Design *design, int choice) {
    Operation operation = design->unit->choice[choice].operation;
    if (design->unit->control == CONTROL_ONE_HOT)
        return design->source[pin_of_request(operation)];
    return design_name(design, design_text(design, "do_%s", operation_name(operation)));
}

/* The choices that want the signal, as one expression over the control pins. */
static Expression wanting(Design *design, uint32_t on) {
    const Unit *unit = design->unit;
    if (unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW) {
        bool second = (on >> 1 & 1) != 0, plain = second == (unit->control == CONTROL_HIGH);
        return design_expression(design, plain ? FORM_NAME : FORM_INVERSE, "%s%s", plain ? "" : "~",
                                 design->source[PIN_LINE]);
    }
    Expression wanting = {"", FORM_NAME};
    for (int k = 0; k < unit->choice_count; k++) {
        if ((on >> k & 1) == 0)
            continue;
        const char *line = line_of(design, k);
        wanting = wanting.text[0] == '\0'
                      ? (Expression){line, FORM_NAME}
                      : design_expression(design, FORM_OPERATION, "%s | %s", wanting.text, line);
    }
    return wanting;
}

/* Declares a wire for each signal that is more than a pin; two alike share one. The choices that
 * some signal wants. */
static uint32_t add_controls(Design *design) {
    const Unit *unit = design->unit;
    SignalPlan plan[SIGNAL_COUNT];
    uint32_t wanted = 0;
    facts_list(design->facts, "control");
    for (int k = 0; k < SIGNAL_COUNT; k++) {
        bool read = is_read(unit, (Signal)k), shared = false;
        plan[k] = operands_signal(unit, (Signal)k);
        design->level[k] = read ? plan[k].level : LEVEL_0;
        design->signal[k] = design->level[k] == LEVEL_1 ? "1'b1" : "1'b0";
        if (design->level[k] != LEVEL_VARIES)
            continue;
        wanted |= plan[k].on;
        for (int other = 0; other < k; other++)
            if (design->level[other] == LEVEL_VARIES && plan[other].on == plan[k].on) {
                design->signal[k] = design->signal[other];
                shared = true;
            }
        Expression meaning = wanting(design, plan[k].on);
        if (shared || meaning.form == FORM_NAME) {
            design->signal[k] = shared ? design->signal[k] : meaning.text;
            continue;
        }
        design->signal[k] = design_name(design, role_text(role_of_signal((Signal)k)));
        Facts *declared = facts_row(design->facts, "control");
        facts_text(declared, "signal", "%s", design->signal[k]);
        facts_text(declared, "expression", "%s", meaning.text);
    }
    return wanted;
}

static void add_lines(Design *design, uint32_t wanted) {
    const Unit *unit = design->unit;
    facts_list(design->facts, "decode");
    for (int k = 0; k < unit->choice_count && unit->control == CONTROL_CODE; k++) {
        if ((wanted >> k & 1) == 0)
            continue;
        Facts *line = facts_row(design->facts, "decode");
        TextBuffer code = {0};
        text_printf(&code, "%u'b", unit->code_bits);
        for (unsigned bit = unit->code_bits; bit-- > 0;)
            text_add(&code, unit->choice[k].code >> bit & 1 ? "1" : "0");
        facts_text(line, "line", "%s", line_of(design, k));
        facts_text(line, "code", "%s", code.text);
        text_free(&code);
    }
}

/* ---- operands ----------------------------------------------------------------------------- */

static Expression operand_a(Design *design) {
    const char *a = design->source[PIN_A];
    switch (design->level[SIGNAL_INVERT_A]) {
    case LEVEL_0:
        return (Expression){a, FORM_NAME};
    case LEVEL_1:
        return design_expression(design, FORM_INVERSE, "~%s", a);
    case LEVEL_VARIES:
        break;
    }
    return design_expression(design, FORM_OPERATION, "%s ^ {%s{%s}}", a, design->bits,
                             design->signal[SIGNAL_INVERT_A]);
}

static Expression operand_b(Design *design) {
    const char *b = design->source[PIN_B], *invert = design->signal[SIGNAL_INVERT_B];
    Level used = design->level[SIGNAL_USE_B], inverted = design->level[SIGNAL_INVERT_B];
    static const TextForm fills[] = {
        [LEVEL_0] = FORM_ZEROS, [LEVEL_1] = FORM_ONES, [LEVEL_VARIES] = FORM_FILL};
    if (used == LEVEL_0)
        return design_expression(design, fills[inverted], "{%s{%s}}", design->bits, invert);
    Expression kept = {b, FORM_NAME};
    if (used == LEVEL_VARIES)
        kept = design_expression(design, FORM_OPERATION, "%s & {%s{%s}}", b, design->bits,
                                 design->signal[SIGNAL_USE_B]);
    /* Where it is the first carry that inverts b, the columns take b as it is. */
    if (inverted == LEVEL_0 || design->sense == CORE_CARRIES_OR_BORROWS)
        return kept;
    if (inverted == LEVEL_1)
        return design_inverse(design, kept);
    return design_expression(design, FORM_OPERATION, "%s ^ {%s{%s}}", design_operand(design, kept),
                             design->bits, invert);
}

static Expression first_carry(Design *design) {
    Level set = design->level[SIGNAL_SET_CARRY], used = design->level[SIGNAL_USE_CIN];
    Level inverted = design->level[SIGNAL_INVERT_CIN];
    const char *cin = design->source[PIN_CIN];
    if (set == LEVEL_1 || used == LEVEL_0)
        return (Expression){design->signal[SIGNAL_SET_CARRY], FORM_NAME};
    Expression carry = {cin, FORM_NAME};
    if (inverted == LEVEL_1)
        carry = design_expression(design, FORM_INVERSE, "~%s", cin);
    if (inverted == LEVEL_VARIES)
        carry = design_expression(design, FORM_OPERATION, "%s ^ %s", cin,
                                  design->signal[SIGNAL_INVERT_CIN]);
    if (used == LEVEL_VARIES)
        carry = design_expression(design, FORM_OPERATION, "%s & %s", design->signal[SIGNAL_USE_CIN],
                                  design_operand(design, carry));
    if (set == LEVEL_0)
        return carry;
    return design_expression(design, FORM_OPERATION, "%s | %s", design->signal[SIGNAL_SET_CARRY],
                             design_operand(design, carry));
}

/* Gives an operand a wire of its own unless it is a name already, or what the columns of a network
 * take as it is: an inverse, a constant word. fact is what templates call it from then on. */
static Expression place(Design *design, const char *stem, const char *fact, Expression value) {
    const char *name = design_name(design, stem);
    bool bare = value.form == FORM_NAME || (design->network && value.form < FORM_FILL);
    facts_text(design->facts, design_text(design, "make.%s", stem), "%s", bare ? "" : value.text);
    facts_text(design->facts, stem, "%s", name);
    Expression placed = bare ? value : (Expression){name, FORM_NAME};
    facts_text(design->facts, fact, "%s", placed.text);
    return placed;
}

static bool needs_last_carry(const Design *design) {
    const Unit *unit = design->unit;
    bool sign_by_carries = flags_read_overflow(unit) && unit->detail == DETAIL_CELLS;
    bool less = unit->flag[FLAG_LESS_UNSIGNED] && design->level[SIGNAL_SUBTRACTING] != LEVEL_0;
    return unit->flag[FLAG_CARRY] || sign_by_carries || less ||
           unit->overflow == OVERFLOW_SATURATE_UNSIGNED;
}

static void add_addition(Design *design, bool wide, bool none) {
    const char *x = design->x.text, *y = design->y.text, *first = design->first.text;
    const char *sum = wide ? design_text(design, "{1'b0, %s} + {1'b0, %s}", x, y)
                           : design_text(design, "%s + %s", x, y);
    if (none)
        facts_text(design->facts, "addition", "%s", sum);
    else
        facts_text(design->facts, "addition", "%s + {{%s{1'b0}}, %s}", sum,
                   wide ? "WIDTH" : "(WIDTH-1)", first);
}

void operand_text(Design *design) {
    Facts *facts = design->facts;
    uint32_t wanted = add_controls(design);
    add_lines(design, wanted);
    Expression x = operand_a(design), y = operand_b(design), first = first_carry(design);
    design->x = place(design, "operand_a", "x", x);
    design->y = place(design, "operand_b", "y", y);
    design->first = place(design, "first_carry", "first", first);
    bool wide = needs_last_carry(design);
    bool none =
        design->level[SIGNAL_SET_CARRY] == LEVEL_0 && (design->level[SIGNAL_USE_CIN] == LEVEL_0);
    facts_flag(facts, "last_carry", wide);
    /* A file for one column would have no full adder in use, which other widths need. */
    facts_flag(facts, "half_first", none && design->unit->width > 1);
    facts_flag(facts, "row",
               design->x.text != x.text || design->y.text != y.text ||
                   design->first.text != first.text);
    add_addition(design, wide, none);
}
