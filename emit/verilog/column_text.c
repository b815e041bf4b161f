/* The columns of a network as text: what columns.v names, the same as gates/structures/columns.c has
 * in gates. */
#include "verilog/design.h"

static bool is_constant(Expression word) {
    return word.form == FORM_ZEROS || word.form == FORM_ONES;
}

/* Of a name, a name's inverse or a constant word. */
static Expression inverse(Design *design, Expression word) {
    if (is_constant(word))
        return design_expression(design, word.form == FORM_ZEROS ? FORM_ONES : FORM_ZEROS,
                                 "{%s{1'b%d}}", design->bits, word.form == FORM_ZEROS);
    if (word.form == FORM_INVERSE)
        return (Expression){word.text + 1, FORM_NAME};
    return design_expression(design, FORM_INVERSE, "~%s", word.text);
}

/* AND of two of these, without what is constant. */
static const char *both(Design *design, Expression x, Expression y) {
    if (is_constant(y))
        return y.form == FORM_ONES ? x.text : y.text;
    if (is_constant(x))
        return x.form == FORM_ONES ? y.text : x.text;
    return design_text(design, "%s & %s", x.text, y.text);
}

/* The same of XOR. */
static const char *either(Design *design, Expression x, Expression y) {
    if (is_constant(y))
        return y.form == FORM_ONES ? inverse(design, x).text : x.text;
    if (is_constant(x))
        return x.form == FORM_ONES ? inverse(design, y).text : y.text;
    bool twice = x.form == FORM_INVERSE && y.form == FORM_INVERSE;
    return design_text(design, "%s ^ %s", x.text + twice, y.text + twice);
}

/* The operands as the columns take them: turned over where the carries are; by the first carry only
 * a, since b has been left as it is. */
static void turn_operands(Design *design, Expression *x, Expression *y) {
    Facts *facts = design->facts;
    facts_text(facts, "make.turned_a", "%s", "");
    if (design_is_inverted(design)) {
        *x = inverse(design, *x);
        *y = inverse(design, *y);
    }
    if (design->sense != CORE_CARRIES_OR_BORROWS)
        return;
    facts_text(facts, "make.turned_a", "%s ^ {%s{%s}}", x->text, design->bits, design->first.text);
    *x = (Expression){design_name(design, "turned_a"), FORM_NAME};
}

/* What lets a carry through, of the columns in a range. */
static const char *passing(Design *design, Expression x, Expression y, const char *half,
                           const char *range) {
    switch (design->sense) {
    case CORE_CARRIES:
        return either(design, design->x, y);
    case CORE_NO_CARRIES:
    case CORE_BORROWS:
        return design_text(design, "~%s%s", half, range);
    case CORE_CARRIES_OR_BORROWS:
        break;
    }
    return design_text(design, "%s%s | %s%s", x.text, range, y.text, range);
}

void column_text(Design *design) {
    Facts *facts = design->facts;
    Expression x = design->x, y = design->y;
    turn_operands(design, &x, &y);
    bool turned = design->sense != CORE_CARRIES;
    const char *half = design_name(design, "half_sum"), *passes = design_name(design, "passes");
    /* Of a prefix network that nothing enters, nobody asks whether the lowest column passes it. */
    unsigned lowest = turned && design->core->prefix != NULL ? 1 : 0;
    const char *range = lowest == 0 ? "" : design_text(design, "[%s:%u]", design->sign, lowest);
    facts_flag(facts, "turns", design->sense == CORE_CARRIES_OR_BORROWS);
    facts_flag(facts, "turned", design_is_inverted(design));
    facts_flag(facts, "borrows", design->sense == CORE_BORROWS);
    facts_text(facts, "make.carry_in", "%s", turned ? "1'b0" : design->first.text);
    facts_text(facts, "lowest_passing", "%u", lowest);
    facts_text(facts, "make.half_sum", "%s", turned ? either(design, design->x, y) : "");
    facts_text(facts, "make.generates", "%s", both(design, x, y));
    facts_text(facts, "make.passes", "%s",
               lowest < design->unit->width ? passing(design, x, y, half, range) : "");
    facts_text(facts, "half", "%s", turned ? half : passes);
}
