/* See expression.h. */
#include "write/expression.h"

#include "gates/operands.h"
#include "write/identifier.h"

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
    Level level[SIGNAL_COUNT];
    Expression signal[SIGNAL_COUNT]; /* an identifier or a constant */
    Expression line[OP_COUNT];       /* CONTROL_CODE: the decode line of each choice */
    bool line_read[OP_COUNT];
} Row;

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
        Identifier name = identifier_free(unit, signal_name((Signal)k), false);
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
        return format("%s ^ {WIDTH{%s}}", a, signal(row, SIGNAL_INVERT_A));
    }
}

static Expression operand_b(const Row *row) {
    const char *b = row->source[PIN_B];
    const char *use = signal(row, SIGNAL_USE_B), *invert = signal(row, SIGNAL_INVERT_B);
    Level used = row->level[SIGNAL_USE_B], inverted = row->level[SIGNAL_INVERT_B];
    if (used == LEVEL_0)
        return format("{WIDTH{%s}}", invert);
    Expression kept = used == LEVEL_1 ? format("%s", b) : format("%s & {WIDTH{%s}}", b, use);
    if (inverted == LEVEL_0)
        return kept;
    kept = operand(&kept);
    if (inverted == LEVEL_1)
        return format("~%s", kept.text);
    return format("%s ^ {WIDTH{%s}}", kept.text, invert);
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

/* Gives an operand a wire of its own unless it is a pin or constant bit already; fact is what
 * templates call it from then on. */
static Expression place(Row *row, const char *stem, const char *fact, const Expression *value) {
    Identifier name = identifier_free(row->unit, stem, false);
    bool bare = is_simple(value) && strchr(value->text, '{') == NULL;
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
    Expression a = operand_a(row), b = operand_b(row), first = first_carry(row);
    Expression x = place(row, "operand_a", "x", &a);
    Expression y = place(row, "operand_b", "y", &b);
    first = place(row, "first_carry", "first", &first);
    bool wide = needs_last_carry(row), none = strcmp(first.text, "1'b0") == 0;
    facts_flag(facts, "last_carry", wide);
    /* A file for one column would have no full adder in use, which other widths need. */
    bool half = none && row->unit->width > 1;
    facts_flag(facts, "half_first", half);
    facts_flag(facts, "row",
               strcmp(x.text, a.text) != 0 || strcmp(y.text, b.text) != 0 ||
                   strchr(first.text, '_') != NULL);
    Expression sum = wide ? format("{1'b0, %s} + {1'b0, %s}", x.text, y.text)
                          : format("%s + %s", x.text, y.text);
    if (none)
        facts_text(facts, "addition", "%s", sum.text);
    else
        facts_text(facts, "addition", "%s + {{%s{1'b0}}, %s}", sum.text,
                   wide ? "WIDTH" : "(WIDTH-1)", first.text);
}

/* ---- flags -------------------------------------------------------------------------------- */

/* What a carry pin shows of the adder's carry. */
static Expression carry_pin(const Row *row, const char *carry) {
    Level subtracting = row->level[SIGNAL_SUBTRACTING];
    if (row->unit->sense == SENSE_NO_BORROW || subtracting == LEVEL_0)
        return format("%s", carry);
    if (subtracting == LEVEL_1)
        return format("~%s", strchr(carry, ' ') == NULL ? carry : format("(%s)", carry).text);
    Expression bare = format("%s", carry);
    bare = operand(&bare);
    return format("%s ^ %s", bare.text, signal(row, SIGNAL_SUBTRACTING));
}

static void add_flag(const Row *row, const char *fact, const Expression *value) {
    if (row->level[SIGNAL_ACTIVE] != LEVEL_VARIES) {
        facts_text(row->facts, fact, "%s", value->text);
        return;
    }
    Expression masked = operand(value);
    facts_text(row->facts, fact, "%s & %s", masked.text, signal(row, SIGNAL_ACTIVE));
}

/* Of an exact unsigned result: below 0, and above the greatest word. */
static void find_bounds(const Row *row, const char *last, Expression *low, Expression *high) {
    Level subtracting = row->level[SIGNAL_SUBTRACTING];
    const char *name = signal(row, SIGNAL_SUBTRACTING);
    *low = subtracting == LEVEL_0   ? format("1'b0")
           : subtracting == LEVEL_1 ? format("~%s", last)
                                    : format("%s & ~%s", name, last);
    *high = subtracting == LEVEL_1   ? format("1'b0")
            : subtracting == LEVEL_0 ? format("%s", last)
                                     : format("~%s & %s", name, last);
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
        fitted = format("%s | {WIDTH{%s}}", fitted.text, too_high.text);
    if (lows) {
        fitted = operand(&fitted);
        fitted = format("%s & {WIDTH{~%s}}", fitted.text, too_low.text);
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

void expression_facts(const Unit *unit, const char *const source[PIN_COUNT], Facts *facts) {
    static Row row; /* large, and one unit is written at a time */
    row = (Row){.unit = unit, .source = source, .facts = facts};
    add_controls(&row);
    add_lines(&row);
    add_operands(&row);
    static const char *const stems[] = {"sum",       "total",        "column",       "carry_in",
                                        "carry_out", "first_column", "later_column", "adder",
                                        "i",         "into_sign",    "one_column",   "more_columns",
                                        "nearest",   "unused_carry"};
    for (size_t k = 0; k < sizeof stems / sizeof stems[0]; k++)
        facts_text(facts, stems[k], "%s", identifier_free(unit, stems[k], false).text);
    Identifier sum = identifier_free(unit, "sum", false);
    Identifier column = identifier_free(unit, "column", false);
    Identifier carry_out = identifier_free(unit, "carry_out", false);
    Identifier total = identifier_free(unit, "total", false);
    bool cells = unit->detail == DETAIL_CELLS;
    Expression last = cells ? format("%s[WIDTH-1].%s", column.text, carry_out.text)
                            : format("%s[WIDTH]", total.text);
    Expression x = operand_a(&row), y = operand_b(&row);
    x = place(&row, "operand_a", "x", &x);
    y = place(&row, "operand_b", "y", &y);
    Expression half = cells ? format("%s[3].%s", column.text, carry_out.text)
                            : half_carry(x.text, y.text, sum.text);
    add_flags(&row, sum.text, last.text, half.text);
}
