/* See design.h. */
#include "verilog/design.h"

#include "base/memory.h"
#include "verilog/identifier.h"

#include <assert.h>
#include <stdarg.h>
#include <string.h>

/* A word's bits, as a number or as the parameter; and the most negative word. */
static void find_width(Design *design) {
    Facts *facts = design->facts;
    unsigned width = design->unit->width;
    bool open = unit_keeps_width(design->unit);
    design->bits = open ? "WIDTH" : design_text(design, "%u", width);
    design->sign = open ? "WIDTH-1" : design_text(design, "%u", width - 1);
    facts_text(facts, "bits", "%s", design->bits);
    facts_text(facts, "sign", "%s", design->sign);
    if (open)
        facts_text(facts, "bottom_word", "{1'b1, {(WIDTH-1){1'b0}}}");
    else if (width == 1)
        facts_text(facts, "bottom_word", "1'b1");
    else
        facts_text(facts, "bottom_word", "{1'b1, {%u{1'b0}}}", width - 1);
}

/* Names that templates use for what is inside. */
static void name_all(Design *design) {
    static const char *const stems[] = {
        "sum",       "total",     "column",     "carry_in",     "carry_out", "first_column",
        "adder",     "i",         "into_sign",  "later_column", "nearest",   "more_columns",
        "too_low",   "overflows", "one_column", "unused_carry", "too_high",  "below_zero",
        "delivered", "fitted",    "half_sum",   "generates",    "passes",    "turned_a"};
    for (size_t k = 0; k < sizeof stems / sizeof stems[0]; k++)
        facts_text(design->facts, stems[k], "%s", design_name(design, stems[k]));
}

void design_open(Design *design, const Unit *unit, const AdderCore *core,
                 const char *const source[PIN_COUNT], Facts *facts) {
    bool network = design_has_network(unit);
    *design = (Design){.unit = unit,
                       .core = core,
                       .source = source,
                       .facts = facts,
                       .network = network,
                       .sense = network ? core->sense : CORE_CARRIES};
    facts_flag(facts, "network", network);
    find_width(design);
    name_all(design);
}

void design_close(Design *design) {
    for (size_t k = 0; k < design->texts; k++)
        memory_free(design->text[k]);
    memory_free(design->text);
    *design = (Design){0};
}

/* ---- texts --------------------------------------------------------------------------------- */

static const char *keep(Design *design, char *text) {
    design->text =
        memory_grow(design->text, &design->text_room, design->texts + 1, sizeof design->text[0]);
    design->text[design->texts++] = text;
    return text;
}

const char *design_text(Design *design, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    return keep(design, text);
}

const char *design_name(Design *design, const char *stem) {
    return design_text(design, "%s", identifier_free(design->unit, stem, false).text);
}

const char *design_stem(Design *design, const char *stem) {
    return design_text(design, "%s", identifier_free(design->unit, stem, true).text);
}

Expression design_expression(Design *design, TextForm form, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    return (Expression){keep(design, text), form};
}

const char *design_operand(Design *design, Expression expression) {
    assert(expression.text != NULL);
    return expression.form == FORM_OPERATION ? design_text(design, "(%s)", expression.text)
                                             : expression.text;
}

Expression design_inverse(Design *design, Expression expression) {
    bool inner = expression.form == FORM_OPERATION;
    return design_expression(design, inner ? FORM_OPERATION : FORM_INVERSE, "~%s",
                             design_operand(design, expression));
}

void design_use(Design *design, const char *cell) {
    for (int k = 0; k < design->cells; k++)
        if (strcmp(design->cell[k], cell) == 0)
            return;
    assert(design->cells < DESIGN_CELLS_MAX);
    design->cell[design->cells++] = cell;
}

/* ---- asking -------------------------------------------------------------------------------- */

bool design_has_network(const Unit *unit) {
    return unit->detail == DETAIL_CELLS && unit->structure != STRUCTURE_RIPPLE;
}

bool design_is_inverted(const Design *design) {
    return design->sense == CORE_NO_CARRIES || design->sense == CORE_BORROWS;
}
