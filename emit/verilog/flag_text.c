/* The flag row as text: what flags.v names. A flag is a row of the table at the end. */
#include "gates/flags.h"
#include "verilog/design.h"

/* What the flags are made from, as names or short expressions. */
typedef struct {
    Design *design;
    const char *leaving; /* what leaves the last column, in the sense of the columns, */
    Expression into_4;   /* and what enters column 4 */
    Expression low;      /* the exact unsigned result is below 0, */
    Expression high;     /* or above the greatest word */
    const char *final;   /* the result as delivered */
} FlagNames;

/* ---- carries ------------------------------------------------------------------------------- */

/* What a carry pin shows of a carry between columns: the addition's, and in a subtraction its
 * complement where the pin is a borrow. What is a borrow in a subtraction already stays. */
static Expression carry_pin(Design *design, Expression carry) {
    bool either = design->sense == CORE_CARRIES_OR_BORROWS;
    bool borrow = design->unit->sense == SENSE_BORROW, inverted = design_is_inverted(design);
    const char *by = NULL;
    if (either && !borrow)
        by = design->first.text;
    if (!either && borrow && design->level[SIGNAL_SUBTRACTING] == LEVEL_VARIES)
        by = design->signal[SIGNAL_SUBTRACTING];
    if (borrow && design->level[SIGNAL_SUBTRACTING] == LEVEL_1)
        inverted = !inverted;
    if (by != NULL)
        carry =
            design_expression(design, FORM_OPERATION, "%s ^ %s", design_operand(design, carry), by);
    return inverted ? design_inverse(design, carry) : carry;
}

/* The carry out of column 3 where carries have no names, from what went into the column and came
 * out of it: both operands, or one of them and no sum. Common practice, no source. */
static Expression into_column_4(Design *design) {
    const char *x = design->x.text, *y = design->y.text, *sum = design_name(design, "sum");
    return design_expression(design, FORM_OPERATION, "(%s[3] & %s[3]) | ((%s[3] | %s[3]) & ~%s[3])",
                             x, y, x, y, sum);
}

static void name_carries(FlagNames *names) {
    Design *design = names->design;
    unsigned width = design->unit->width;
    names->into_4 = into_column_4(design);
    if (design->network) {
        names->leaving = network_carry(design, width);
        names->into_4 = (Expression){network_carry(design, 4), FORM_NAME};
        facts_text(design->facts, "leaves_sign", "%s", names->leaving);
        facts_text(design->facts, "enters_sign", "%s", network_carry(design, width - 1));
    } else if (design->unit->detail == DETAIL_CELLS) {
        const char *column = design_name(design, "column"), *out = design_name(design, "carry_out");
        names->leaving = design_text(design, "%s[WIDTH-1].%s", column, out);
        names->into_4 = design_expression(design, FORM_NAME, "%s[3].%s", column, out);
    } else {
        names->leaving = design_text(design, "%s[WIDTH]", design_name(design, "total"));
    }
}

/* ---- the result ---------------------------------------------------------------------------- */

/* Of an exact unsigned result: below 0, and above the greatest word. */
static void find_bounds(FlagNames *names) {
    Design *design = names->design;
    Level subtracting = design->level[SIGNAL_SUBTRACTING];
    const char *name = design->signal[SIGNAL_SUBTRACTING], *last = names->leaving;
    Expression never = {"1'b0", FORM_NAME}, carry = {last, FORM_NAME}, borrow = carry;
    if (design_is_inverted(design))
        carry = design_inverse(design, carry);
    if (design->sense == CORE_CARRIES)
        borrow = design_inverse(design, borrow);
    names->low = borrow;
    names->high = carry;
    if (subtracting == LEVEL_VARIES) {
        names->low = design_expression(design, FORM_OPERATION, "%s & %s", name, borrow.text);
        names->high = design_expression(design, FORM_OPERATION, "~%s & %s", name, carry.text);
    }
    if (subtracting == LEVEL_0)
        names->low = never;
    if (subtracting == LEVEL_1)
        names->high = never;
}

static void add_saturation(FlagNames *names) {
    Design *design = names->design;
    Facts *facts = design->facts;
    Level subtracting = design->level[SIGNAL_SUBTRACTING];
    bool clamps = design->unit->overflow == OVERFLOW_SATURATE_UNSIGNED;
    bool lows = clamps && subtracting != LEVEL_0, highs = clamps && subtracting != LEVEL_1;
    facts_text(facts, "make.too_low", "%s", lows ? names->low.text : "");
    facts_text(facts, "make.too_high", "%s", highs ? names->high.text : "");
    Expression fitted = {design_name(design, "sum"), FORM_NAME};
    if (highs)
        fitted = design_expression(design, FORM_OPERATION, "%s | {%s{%s}}", fitted.text,
                                   design->bits, design_name(design, "too_high"));
    if (lows) {
        const char *too_low = design_name(design, "too_low");
        fitted = design_expression(design, FORM_OPERATION, "%s & {%s{~%s}}",
                                   design_operand(design, fitted), design->bits, too_low);
        names->low = (Expression){too_low, FORM_NAME};
    }
    facts_text(facts, "make.fitted", "%s", fitted.text);
}

static void deliver_result(FlagNames *names) {
    Design *design = names->design;
    Facts *facts = design->facts;
    const Unit *unit = design->unit;
    bool masked = design->level[SIGNAL_ACTIVE] != LEVEL_1;
    const char *whole = design_name(design, unit->overflow == OVERFLOW_WRAP ? "sum" : "fitted");
    names->final = masked ? design_name(design, "delivered") : whole;
    facts_text(facts, "active", "%s", design->signal[SIGNAL_ACTIVE]);
    facts_text(facts, "whole", "%s", whole);
    facts_text(facts, "final", "%s", names->final);
    facts_flag(facts, "masked", masked);
    facts_flag(facts, "signs", flags_read_overflow(unit));
    facts_flag(facts, "below",
               unit->flag[FLAG_LESS_SIGNED] || unit->overflow == OVERFLOW_SATURATE_SIGNED);
}

/* ---- the flags ----------------------------------------------------------------------------- */

typedef Expression FlagText(const FlagNames *names);

static Expression carry_text(const FlagNames *names) {
    return carry_pin(names->design, (Expression){names->leaving, FORM_NAME});
}

static Expression overflow_text(const FlagNames *names) {
    return (Expression){design_name(names->design, "overflows"), FORM_NAME};
}

static Expression zero_text(const FlagNames *names) {
    return design_expression(names->design, FORM_OPERATION, "%s == {%s{1'b0}}", names->final,
                             names->design->bits);
}

static Expression negative_text(const FlagNames *names) {
    return design_expression(names->design, FORM_NAME, "%s[%s]", names->final, names->design->sign);
}

static Expression less_signed_text(const FlagNames *names) {
    return (Expression){design_name(names->design, "below_zero"), FORM_NAME};
}

static Expression less_unsigned_text(const FlagNames *names) {
    return names->low;
}

static Expression parity_text(const FlagNames *names) {
    return design_expression(names->design, FORM_INVERSE, "^%s", names->final);
}

static Expression half_carry_text(const FlagNames *names) {
    return carry_pin(names->design, names->into_4);
}

#define TEXT_ROW(ID, id, ...) [FLAG_##ID] = id##_text,
static FlagText *const flag_texts[FLAG_COUNT] = {FLAGS(TEXT_ROW)};
#undef TEXT_ROW

void flag_text(Design *design) {
    FlagNames names = {.design = design};
    name_carries(&names);
    find_bounds(&names);
    add_saturation(&names);
    deliver_result(&names);
    facts_list(design->facts, "flag_pin");
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!design->unit->flag[flag])
            continue;
        Expression value = flag_texts[flag](&names);
        bool clears =
            design->level[SIGNAL_ACTIVE] == LEVEL_VARIES && !flag_is_of_result((Flag)flag);
        Facts *row = facts_row(design->facts, "flag_pin");
        facts_text(row, "pin", "%s", design->source[pin_of_flag((Flag)flag)]);
        if (clears)
            facts_text(row, "value", "%s & %s", design_operand(design, value),
                       design->signal[SIGNAL_ACTIVE]);
        else
            facts_text(row, "value", "%s", value.text);
    }
}
