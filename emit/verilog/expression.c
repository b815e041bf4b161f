/* See expression.h. */
#include "verilog/expression.h"

#include "base/memory.h"
#include "gates/netlist/core.h"
#include "gates/operands.h"
#include "verilog/identifier.h"
#include "verilog/network.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Room for a sum of all operations' decode lines with the longest names. */
enum { EXPRESSION_BYTES = OP_COUNT * (IDENTIFIER_BYTES + 8) };

typedef struct {
    char text[EXPRESSION_BYTES];
} Expression;

typedef struct {
    const Unit *unit;
    const char *const *source; /* where each input pin is read */
    Facts *facts;
    bool network;    /* cells of another structure than ripple, */
    CoreSense sense; /* of the carries of its columns */
    char bits[16];   /* of a word: "WIDTH" or the number */
    char sign[16];   /* the number of its highest bit: "WIDTH-1" or the number */
    Level level[SIGNAL_COUNT];
    Expression signal[SIGNAL_COUNT]; /* an identifier or a constant */
    Expression line[OP_COUNT];       /* CONTROL_CODE: the decode line of each choice */
    bool line_read[OP_COUNT];
    Expression x, y, first; /* what the adder is given, as names where they are more */
} Row;

/* Are the carries of the columns the complements of the addition's? */
static bool is_inverted(const Row *row) {
    return row->sense == CORE_NO_CARRIES || row->sense == CORE_BORROWS;
}

static Expression format(const char *form, ...) __attribute__((format(printf, 1, 2)));

static Expression format(const char *form, ...) {
    Expression expression;
    va_list arguments;
    va_start(arguments, form);
    vsnprintf(expression.text, sizeof expression.text, form, arguments);
    va_end(arguments);
    return expression;
}

static bool is_simple(const Expression *expression) {
    return strpbrk(expression->text, " ~") == NULL;
}

/* Fit to stand beside an operator. */
static Expression operand(const Expression *expression) {
    bool bare = strchr(expression->text, ' ') == NULL;
    return format(bare ? "%s" : "(%s)", expression->text);
}

/* ---- control signals ---------------------------------------------------------------------- */

/* Is the signal read anywhere? One that is not must not be declared. */
static bool is_read(const Unit *unit, Signal signal) {
    bool borrow = unit->sense == SENSE_BORROW;
    switch (signal) {
    case SIGNAL_USE_CIN:
        return operands_signal(unit, SIGNAL_SET_CARRY).level != LEVEL_1;
    case SIGNAL_INVERT_CIN:
        return operands_signal(unit, SIGNAL_USE_CIN).level != LEVEL_0;
    case SIGNAL_SUBTRACTING:
        return unit->flag[FLAG_LESS_UNSIGNED] || unit->overflow == OVERFLOW_SATURATE_UNSIGNED ||
               (borrow && (unit->flag[FLAG_CARRY] || unit->flag[FLAG_HALF_CARRY]));
    default:
        return signal <= SIGNAL_ACTIVE; /* the borrow form is for gates alone */
    }
}

/* The choices that want the signal, as one expression over the control pins. */
static Expression wanting(Row *row, uint32_t on) {
    const Unit *unit = row->unit;
    if (unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW) {
        bool second = (on >> 1 & 1) != 0;
        bool plain = second == (unit->control == CONTROL_HIGH);
        return format("%s%s", plain ? "" : "~", row->source[PIN_LINE]);
    }
    Expression expression = format("%s", "");
    size_t used = 0;
    for (int k = 0; k < unit->choice_count; k++) {
        if ((on >> k & 1) == 0)
            continue;
        row->line_read[k] = true;
        used += (size_t)snprintf(expression.text + used, sizeof expression.text - used, "%s%s",
                                 used == 0 ? "" : " | ", row->line[k].text);
    }
    return expression;
}

static void name_lines(Row *row) {
    const Unit *unit = row->unit;
    for (int k = 0; k < unit->choice_count; k++) {
        Operation operation = unit->choice[k].operation;
        Pin request = (Pin)(PIN_DO + (int)operation);
        if (unit->control == CONTROL_ONE_HOT) {
            row->line[k] = format("%s", row->source[request]);
            continue;
        }
        Expression stem = format("do_%s", operation_name(operation));
        row->line[k] = format("%s", identifier_free(unit, stem.text, false).text);
    }
}

/* Declares a wire for each signal that is more than a pin; two alike share one. */
static void add_controls(Row *row) {
    const Unit *unit = row->unit;
    Expression meaning[SIGNAL_COUNT];
    facts_list(row->facts, "control");
    name_lines(row);
    for (int k = 0; k < SIGNAL_COUNT; k++) {
        SignalPlan plan = operands_signal(unit, (Signal)k);
        row->level[k] = is_read(unit, (Signal)k) ? plan.level : LEVEL_0;
        meaning[k] = format("%s", "");
        row->signal[k] = format("1'b%d", row->level[k] == LEVEL_1);
        if (row->level[k] != LEVEL_VARIES)
            continue;
        meaning[k] = wanting(row, plan.on);
        row->signal[k] = meaning[k];
        for (int other = 0; other < k; other++)
            if (strcmp(meaning[other].text, meaning[k].text) == 0)
                row->signal[k] = row->signal[other];
        if (is_simple(&row->signal[k]))
            continue;
        Identifier name = identifier_free(unit, role_text(role_of_signal((Signal)k)), false);
        row->signal[k] = format("%s", name.text);
        Facts *declared = facts_row(row->facts, "control");
        facts_text(declared, "signal", "%s", name.text);
        facts_text(declared, "expression", "%s", meaning[k].text);
    }
}

static void add_lines(Row *row) {
    const Unit *unit = row->unit;
    facts_list(row->facts, "decode");
    for (int k = 0; k < unit->choice_count && unit->control == CONTROL_CODE; k++) {
        if (!row->line_read[k])
            continue;
        Facts *line = facts_row(row->facts, "decode");
        Expression code = format("%u'b", unit->code_bits);
        size_t used = strlen(code.text);
        for (unsigned bit = unit->code_bits; bit-- > 0;)
            code.text[used++] = unit->choice[k].code >> bit & 1 ? '1' : '0';
        code.text[used] = '\0';
        facts_text(line, "line", "%s", row->line[k].text);
        facts_text(line, "code", "%s", code.text);
    }
}

/* ---- operands ----------------------------------------------------------------------------- */

static const char *signal(const Row *row, Signal which) {
    return row->signal[which].text;
}

static Expression operand_a(const Row *row) {
    const char *a = row->source[PIN_A];
    switch (row->level[SIGNAL_INVERT_A]) {
    case LEVEL_0:
        return format("%s", a);
    case LEVEL_1:
        return format("~%s", a);
    default:
        return format("%s ^ {%s{%s}}", a, row->bits, signal(row, SIGNAL_INVERT_A));
    }
}

static Expression operand_b(const Row *row) {
    const char *b = row->source[PIN_B];
    const char *use = signal(row, SIGNAL_USE_B), *invert = signal(row, SIGNAL_INVERT_B);
    Level used = row->level[SIGNAL_USE_B], inverted = row->level[SIGNAL_INVERT_B];
    if (used == LEVEL_0)
        return format("{%s{%s}}", row->bits, invert);
    Expression kept =
        used == LEVEL_1 ? format("%s", b) : format("%s & {%s{%s}}", b, row->bits, use);
    /* Where it is the first carry that inverts b, the columns are turned and b is turned back. */
    if (inverted == LEVEL_0 || row->sense == CORE_CARRIES_OR_BORROWS)
        return kept;
    kept = operand(&kept);
    if (inverted == LEVEL_1)
        return format("~%s", kept.text);
    return format("%s ^ {%s{%s}}", kept.text, row->bits, invert);
}

static Expression first_carry(const Row *row) {
    Level set = row->level[SIGNAL_SET_CARRY], used = row->level[SIGNAL_USE_CIN];
    const char *cin = row->source[PIN_CIN];
    if (set == LEVEL_1 || used == LEVEL_0)
        return row->signal[SIGNAL_SET_CARRY];
    Level inverted = row->level[SIGNAL_INVERT_CIN];
    Expression carry = inverted == LEVEL_0 ? format("%s", cin)
                       : inverted == LEVEL_1
                           ? format("~%s", cin)
                           : format("%s ^ %s", cin, signal(row, SIGNAL_INVERT_CIN));
    if (used == LEVEL_VARIES) {
        carry = operand(&carry);
        carry = format("%s & %s", signal(row, SIGNAL_USE_CIN), carry.text);
    }
    if (set == LEVEL_0)
        return carry;
    carry = operand(&carry);
    return format("%s | %s", signal(row, SIGNAL_SET_CARRY), carry.text);
}

/* A word of one bit over and over, that a constant: "{8{1'b0}}". */
static bool is_word_constant(const Expression *value) {
    return value->text[0] == '{' && strstr(value->text, "{1'b") != NULL;
}

/* Gives an operand a wire of its own unless it is a pin or constant bit already, or what the
 * columns of a network take as it is: a pin's inverse, a constant word. fact is what templates call
 * it from then on. */
static Expression place(Row *row, const char *stem, const char *fact, const Expression *value) {
    Identifier name = identifier_free(row->unit, stem, false);
    bool word = strchr(value->text, '{') != NULL, plain = strchr(value->text, ' ') == NULL;
    bool bare =
        (is_simple(value) && !word) || (row->network && (word ? is_word_constant(value) : plain));
    char make[64];
    snprintf(make, sizeof make, "make.%s", stem);
    facts_text(row->facts, make, "%s", bare ? "" : value->text);
    facts_text(row->facts, stem, "%s", name.text);
    Expression placed = format("%s", bare ? value->text : name.text);
    facts_text(row->facts, fact, "%s", placed.text);
    return placed;
}

static bool needs_signs(const Unit *unit) {
    return unit->flag[FLAG_OVERFLOW] || unit->flag[FLAG_LESS_SIGNED] ||
           unit->overflow == OVERFLOW_SATURATE_SIGNED;
}

static bool needs_last_carry(const Row *row) {
    const Unit *unit = row->unit;
    bool sign_by_carries = needs_signs(unit) && unit->detail == DETAIL_CELLS;
    bool less = unit->flag[FLAG_LESS_UNSIGNED] && row->level[SIGNAL_SUBTRACTING] != LEVEL_0;
    return unit->flag[FLAG_CARRY] || sign_by_carries || less ||
           unit->overflow == OVERFLOW_SATURATE_UNSIGNED;
}

static void add_operands(Row *row) {
    Facts *facts = row->facts;
    Expression a = operand_a(row), b = operand_b(row), carry = first_carry(row);
    Expression x = row->x = place(row, "operand_a", "x", &a);
    Expression y = row->y = place(row, "operand_b", "y", &b);
    Expression first = row->first = place(row, "first_carry", "first", &carry);
    bool wide = needs_last_carry(row), none = strcmp(first.text, "1'b0") == 0;
    facts_flag(facts, "last_carry", wide);
    /* A file for one column would have no full adder in use, which other widths need. */
    bool half = none && row->unit->width > 1;
    facts_flag(facts, "half_first", half);
    facts_flag(facts, "row",
               strcmp(x.text, a.text) != 0 || strcmp(y.text, b.text) != 0 ||
                   strcmp(first.text, carry.text) != 0);
    Expression sum = wide ? format("{1'b0, %s} + {1'b0, %s}", x.text, y.text)
                          : format("%s + %s", x.text, y.text);
    if (none)
        facts_text(facts, "addition", "%s", sum.text);
    else
        facts_text(facts, "addition", "%s + {{%s{1'b0}}, %s}", sum.text,
                   wide ? "WIDTH" : "(WIDTH-1)", first.text);
}

/* ---- the columns of a network ------------------------------------------------------------- */

static Expression word_of(const Row *row, int bit) {
    return format("{%s{1'b%d}}", row->bits, bit);
}

/* Of a name, a name's inverse or a constant word. */
static Expression inverse(const Row *row, const Expression *word) {
    if (is_word_constant(word))
        return word_of(row, strstr(word->text, "1'b0") != NULL);
    return word->text[0] == '~' ? format("%s", word->text + 1) : format("~%s", word->text);
}

/* AND or XOR of two of these, without what is constant. */
static Expression joined(const Row *row, const Expression *x, char operator, const Expression * y) {
    if (is_word_constant(x) && !is_word_constant(y))
        return joined(row, y, operator, x);
    if (is_word_constant(y)) {
        bool ones = strstr(y->text, "1'b1") != NULL;
        if (operator== '&')
            return ones ? *x : *y;
        return ones ? inverse(row, x) : *x;
    }
    if (operator== '^' && x->text[0] == '~' && y->text[0] == '~')
        return format("%s ^ %s", x->text + 1, y->text + 1);
    return format("%s %c %s", x->text, operator, y->text);
}

/* The operands turned over where the columns are; by the first carry only a, since b has been left
 * as it is. */
static void turn_operands(Row *row, Expression *x, Expression *y) {
    Facts *facts = row->facts;
    facts_text(facts, "make.turned_a", "%s", "");
    if (is_inverted(row)) {
        *x = inverse(row, x);
        *y = inverse(row, y);
    }
    if (row->sense != CORE_CARRIES_OR_BORROWS)
        return;
    Expression first = format("{%s{%s}}", row->bits, row->first.text);
    Identifier name = identifier_free(row->unit, "turned_a", false);
    facts_text(facts, "turned_a", "%s", name.text);
    facts_text(facts, "make.turned_a", "%s ^ %s", x->text, first.text);
    *x = format("%s", name.text);
}

/* What each column makes, passes on and sums up without the carry that enters; the same as
 * gates/columns.c has in gates. */
static void add_columns(Row *row, const Netlist *netlist) {
    Facts *facts = row->facts;
    const Unit *unit = row->unit;
    Expression x = row->x, y = row->y;
    turn_operands(row, &x, &y);
    Identifier half = identifier_free(unit, "half_sum", false);
    Identifier passes = identifier_free(unit, "passes", false);
    bool turns = row->sense != CORE_CARRIES;
    /* Of a prefix network that nothing enters, nobody asks whether the lowest column passes it. */
    unsigned lowest = turns && netlist->core->prefix != NULL ? 1 : 0;
    Expression sum = joined(row, &row->x, '^', &y), made = joined(row, &x, '&', &y);
    Expression range = format("[%s:%u]", row->sign, lowest);
    if (lowest == 0)
        range = format("%s", "");
    Expression passed = row->sense == CORE_CARRIES ? sum
                        : is_inverted(row)
                            ? format("~%s%s", half.text, range.text)
                            : format("%s%s | %s%s", x.text, range.text, y.text, range.text);
    facts_flag(facts, "turns", row->sense == CORE_CARRIES_OR_BORROWS);
    facts_flag(facts, "turned", is_inverted(row));
    facts_flag(facts, "borrows", netlist->core->sense == CORE_BORROWS);
    facts_text(facts, "make.carry_in", "%s", turns ? "1'b0" : row->first.text);
    facts_text(facts, "lowest_passing", "%u", lowest);
    facts_text(facts, "make.half_sum", "%s", turns ? sum.text : "");
    facts_text(facts, "make.generates", "%s", made.text);
    facts_text(facts, "make.passes", "%s", lowest < unit->width ? passed.text : "");
    facts_text(facts, "half_sum", "%s", half.text);
    facts_text(facts, "half", "%s", turns ? half.text : passes.text);
    facts_text(facts, "passes", "%s", passes.text);
    facts_text(facts, "generates", "%s", identifier_free(unit, "generates", false).text);
}

/* ---- flags -------------------------------------------------------------------------------- */

/* What a carry pin shows of a carry between columns: turned back where the columns are, and turned
 * over in a subtraction where the pin is a borrow. */
static Expression carry_pin(const Row *row, const char *carry) {
    const char *turn = row->sense == CORE_CARRIES_OR_BORROWS ? row->first.text : "";
    const char *subtracting = "";
    bool inverted = is_inverted(row);
    if (row->unit->sense == SENSE_BORROW && row->level[SIGNAL_SUBTRACTING] == LEVEL_VARIES)
        subtracting = signal(row, SIGNAL_SUBTRACTING);
    if (row->unit->sense == SENSE_BORROW && row->level[SIGNAL_SUBTRACTING] == LEVEL_1)
        inverted = !inverted;
    if (strcmp(turn, subtracting) == 0)
        turn = subtracting = ""; /* twice is not at all */
    Expression pin = format("%s", carry);
    for (int k = 0; k < 2; k++) {
        const char *by = k == 0 ? turn : subtracting;
        if (by[0] == '\0')
            continue;
        pin = operand(&pin);
        pin = format("%s ^ %s", pin.text, by);
    }
    if (!inverted)
        return pin;
    pin = operand(&pin);
    return format("~%s", pin.text);
}

static void add_flag(const Row *row, const char *fact, const Expression *value) {
    if (row->level[SIGNAL_ACTIVE] != LEVEL_VARIES) {
        facts_text(row->facts, fact, "%s", value->text);
        return;
    }
    Expression masked = operand(value);
    facts_text(row->facts, fact, "%s & %s", masked.text, signal(row, SIGNAL_ACTIVE));
}

/* The carry out of the last column in an addition, and the borrow out of it in a subtraction. */
static void find_last(const Row *row, const char *last, Expression *carry, Expression *borrow) {
    bool turned = is_inverted(row);
    *carry = format(turned ? "~%s" : "%s", last);
    *borrow = format(turned ? "%s" : "~%s", last);
    if (row->sense == CORE_CARRIES_OR_BORROWS)
        *borrow = *carry; /* it is both */
}

/* Of an exact unsigned result: below 0, and above the greatest word. */
static void find_bounds(const Row *row, const char *last, Expression *low, Expression *high) {
    Level subtracting = row->level[SIGNAL_SUBTRACTING];
    const char *name = signal(row, SIGNAL_SUBTRACTING);
    Expression carry, borrow;
    find_last(row, last, &carry, &borrow);
    *low = subtracting == LEVEL_0   ? format("1'b0")
           : subtracting == LEVEL_1 ? borrow
                                    : format("%s & %s", name, borrow.text);
    *high = subtracting == LEVEL_1   ? format("1'b0")
            : subtracting == LEVEL_0 ? carry
                                     : format("~%s & %s", name, carry.text);
}

static void add_saturation(const Row *row, const char *sum, Expression *low,
                           const Expression *high) {
    Facts *facts = row->facts;
    const Unit *unit = row->unit;
    Level subtracting = row->level[SIGNAL_SUBTRACTING];
    bool clamps = unit->overflow == OVERFLOW_SATURATE_UNSIGNED;
    Identifier too_low = identifier_free(unit, "too_low", false);
    Identifier too_high = identifier_free(unit, "too_high", false);
    bool lows = clamps && subtracting != LEVEL_0, highs = clamps && subtracting != LEVEL_1;
    facts_text(facts, "too_low", "%s", too_low.text);
    facts_text(facts, "too_high", "%s", too_high.text);
    facts_text(facts, "make.too_low", "%s", lows ? low->text : "");
    facts_text(facts, "make.too_high", "%s", highs ? high->text : "");
    Expression fitted = format("%s", sum);
    if (highs)
        fitted = format("%s | {%s{%s}}", fitted.text, row->bits, too_high.text);
    if (lows) {
        fitted = operand(&fitted);
        fitted = format("%s & {%s{~%s}}", fitted.text, row->bits, too_low.text);
        *low = format("%s", too_low.text);
    }
    facts_text(facts, "make.fitted", "%s", fitted.text);
}

static void add_flags(Row *row, const char *sum, const char *last, const char *half) {
    const Unit *unit = row->unit;
    Facts *facts = row->facts;
    Expression low, high;
    find_bounds(row, last, &low, &high);
    add_saturation(row, sum, &low, &high);
    Expression carry = carry_pin(row, last), halved = carry_pin(row, half);
    Expression overflow = format("%s", identifier_free(unit, "overflows", false).text);
    Expression below = format("%s", identifier_free(unit, "below_zero", false).text);
    facts_text(facts, "overflows", "%s", overflow.text);
    facts_text(facts, "below_zero", "%s", below.text);
    add_flag(row, "make.carry", &carry);
    add_flag(row, "make.overflow", &overflow);
    add_flag(row, "make.less_signed", &below);
    add_flag(row, "make.less_unsigned", &low);
    add_flag(row, "make.half_carry", &halved);

    bool saturates = unit->overflow != OVERFLOW_WRAP, masked = row->level[SIGNAL_ACTIVE] != LEVEL_1;
    Identifier fitted = identifier_free(unit, "fitted", false);
    Identifier delivered = identifier_free(unit, "delivered", false);
    const char *whole = saturates ? fitted.text : sum;
    facts_text(facts, "fitted", "%s", fitted.text);
    facts_text(facts, "delivered", "%s", delivered.text);
    facts_text(facts, "active", "%s", signal(row, SIGNAL_ACTIVE));
    facts_text(facts, "whole", "%s", whole);
    facts_text(facts, "final", "%s", masked ? delivered.text : whole);
    facts_flag(facts, "masked", masked);
    facts_flag(facts, "signs", needs_signs(unit));
    facts_flag(facts, "below",
               unit->flag[FLAG_LESS_SIGNED] || unit->overflow == OVERFLOW_SATURATE_SIGNED);
}

/* The carry out of column 3 where carries have no names, from what went into the column and came
 * out of it: both operands, or one of them and no sum. Common practice, no source. */
static Expression half_carry(const char *x, const char *y, const char *sum) {
    return format("(%s[3] & %s[3]) | ((%s[3] | %s[3]) & ~%s[3])", x, y, x, y, sum);
}

/* A word's bits, as a number or as the parameter; and the most negative word. */
static void add_width(Row *row) {
    Facts *facts = row->facts;
    unsigned width = row->unit->width;
    bool open = unit_keeps_width(row->unit);
    snprintf(row->bits, sizeof row->bits, open ? "WIDTH" : "%u", width);
    snprintf(row->sign, sizeof row->sign, open ? "WIDTH-1" : "%u", width - 1);
    facts_text(facts, "bits", "%s", row->bits);
    facts_text(facts, "sign", "%s", row->sign);
    if (open)
        facts_text(facts, "bottom_word", "{1'b1, {(WIDTH-1){1'b0}}}");
    else if (width == 1)
        facts_text(facts, "bottom_word", "1'b1");
    else
        facts_text(facts, "bottom_word", "{1'b1, {%u{1'b0}}}", width - 1);
}

static void add_names(Row *row) {
    static const char *const stems[] = {"sum",       "total",        "column",       "carry_in",
                                        "carry_out", "first_column", "later_column", "adder",
                                        "i",         "into_sign",    "one_column",   "more_columns",
                                        "nearest",   "unused_carry"};
    for (size_t k = 0; k < sizeof stems / sizeof stems[0]; k++)
        facts_text(row->facts, stems[k], "%s", identifier_free(row->unit, stems[k], false).text);
}

/* The flags, from the carries by the names that the adder gives them. */
static void add_flag_row(Row *row, const Netlist *netlist) {
    const Unit *unit = row->unit;
    Identifier sum = identifier_free(unit, "sum", false);
    if (row->network) {
        Identifier last = network_carry(unit, netlist, unit->width);
        facts_text(row->facts, "leaves_sign", "%s", last.text);
        facts_text(row->facts, "enters_sign", "%s",
                   network_carry(unit, netlist, unit->width - 1).text);
        add_flags(row, sum.text, last.text, network_carry(unit, netlist, 4).text);
        return;
    }
    Identifier column = identifier_free(unit, "column", false);
    Identifier carry_out = identifier_free(unit, "carry_out", false);
    Identifier total = identifier_free(unit, "total", false);
    bool cells = unit->detail == DETAIL_CELLS;
    Expression last = cells ? format("%s[WIDTH-1].%s", column.text, carry_out.text)
                            : format("%s[WIDTH]", total.text);
    Expression half = cells ? format("%s[3].%s", column.text, carry_out.text)
                            : half_carry(row->x.text, row->y.text, sum.text);
    add_flags(row, sum.text, last.text, half.text);
}

void expression_facts(const Unit *unit, const Netlist *netlist, const char *const source[PIN_COUNT],
                      Facts *facts) {
    Row *row = memory_zeroed(1, sizeof *row); /* large */
    *row = (Row){.unit = unit, .source = source, .facts = facts};
    row->network = network_has(unit);
    row->sense = row->network ? netlist->core->sense : CORE_CARRIES;
    facts_flag(facts, "network", row->network);
    add_width(row);
    add_controls(row);
    add_lines(row);
    add_operands(row);
    add_names(row);
    if (row->network)
        add_columns(row, netlist);
    add_flag_row(row, netlist);
    memory_free(row);
}
