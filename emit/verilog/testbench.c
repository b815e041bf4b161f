/* See testbench.h. */
#include "verilog/testbench.h"

#include "base/memory.h"
#include "base/text.h"
#include "verilog/layout.h"
#include "verilog/unit_facts.h"

#include <stdio.h>

static void append(TextBuffer *list, const char *between, const char *text) {
    text_printf(list, "%s%s", list->length == 0 ? "" : between, text);
}

/* ---- the fields of a vector --------------------------------------------------------------- */

static Field field_of(Pin pin) {
    switch (pin_kind(pin)) {
    case PIN_FLAG:
        return FIELD_FLAGS;
    case PIN_CIN:
        return FIELD_CIN;
    case PIN_A:
        return FIELD_A;
    case PIN_B:
        return FIELD_B;
    case PIN_RESULT:
        return FIELD_RESULT;
    case PIN_LINE:
    case PIN_OP:
    case PIN_DO:
    case PIN_CLK:
    case PIN_RST:
    case PIN_EN:
        break;
    }
    return FIELD_CONTROL;
}

/* The number of the pin's lowest bit in the word. */
static unsigned pin_low(const Unit *unit, const Layout *layout, Pin pin) {
    unsigned low = layout->field[field_of(pin)].low;
    if (pin >= PIN_FLAG)
        for (int flag = (int)(pin - PIN_FLAG) + 1; flag < FLAG_COUNT; flag++)
            low += unit->flag[flag];
    if (pin >= PIN_DO && pin < PIN_CIN)
        for (int k = 0; unit->choice[k].operation != (Operation)(pin - PIN_DO); k++)
            low++;
    return low;
}

/* "driven[11:4]": the pin's place in a word. */
static void slice_text(const Unit *unit, const char *word, Pin pin, char *text, size_t room) {
    Layout layout = layout_of(unit);
    unsigned low = pin_low(unit, &layout, pin), bits = unit_pin_bits(unit, pin);
    if (bits == 1)
        snprintf(text, room, "%s[%u]", word, low);
    else
        snprintf(text, room, "%s[%u:%u]", word, low + bits - 1, low);
}

static bool is_word(Pin pin) {
    return pin == PIN_A || pin == PIN_B || pin == PIN_RESULT;
}

static void add_wires(const Unit *unit, Facts *facts) {
    const char *word = unit->registers == REGISTERS_NONE ? "vector" : "driven";
    for (int pin = PIN_LINE; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin))
            continue;
        bool output = pin_is_output((Pin)pin);
        unsigned bits = unit_pin_bits(unit, (Pin)pin);
        char slice[64], range[32] = "";
        slice_text(unit, word, (Pin)pin, slice, sizeof slice);
        if (is_word((Pin)pin) || bits > 1)
            snprintf(range, sizeof range, "[%u:0] ", bits - 1);
        Facts *row = facts_row(facts, output ? "output" : "input");
        facts_text(row, "range", "%s", range);
        facts_text(row, "role", "%s", unit_role(unit, (Pin)pin));
        facts_text(row, "slice", "%s", slice);
    }
}

static void add_connections(const Unit *unit, Facts *facts) {
    int last = 0;
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (unit_has(unit, (Pin)pin))
            last = pin;
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin))
            continue;
        Facts *row = facts_row(facts, "connection");
        facts_text(row, "pin", "%s", unit->pin[pin]);
        facts_text(row, "role", "%s", pin == PIN_RST ? "rst" : unit_role(unit, (Pin)pin));
        facts_text(row, "comma", pin == last ? "" : ",");
    }
}

/* ---- what comes out ----------------------------------------------------------------------- */

static void append_padding(TextBuffer *list, const FieldPlace *place) {
    char text[32];
    unsigned padding = place->digits * 4 - place->bits;
    snprintf(text, sizeof text, "%u'b0", padding);
    if (padding > 0)
        append(list, ", ", text);
}

/* Result and flags as the vector has them, padding included; and, for a reset, what they are with
 * no operation: zero 1, all else 0. */
static void add_outputs(const Unit *unit, Facts *facts) {
    Layout layout = layout_of(unit);
    TextBuffer result = {0}, flags = {0};
    append_padding(&result, &layout.field[FIELD_RESULT]);
    append(&result, ", ", unit_role(unit, PIN_RESULT));
    append_padding(&flags, &layout.field[FIELD_FLAGS]);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (unit->flag[flag])
            append(&flags, ", ", unit_role(unit, (Pin)(PIN_FLAG + flag)));
    unsigned flag_digits = layout.field[FIELD_FLAGS].digits;
    bool has_flags = flag_digits > 0;
    char *flag_outputs = text_take(&flags); /* "" without flags */
    facts_text(facts, "flag_outputs", "%s", flag_outputs);
    facts_text(facts, "flag_range", "[%u:0] ", has_flags ? flag_digits * 4 - 1 : 0);
    facts_text(facts, "result_outputs", "%s", result.text);
    facts_text(facts, "outputs", "%s%s%s", result.text, has_flags ? ", " : "", flag_outputs);
    text_free(&result);
    memory_free(flag_outputs);
    unsigned zero =
        unit->flag[FLAG_ZERO] ? 1u << pin_low(unit, &layout, (Pin)(PIN_FLAG + FLAG_ZERO)) : 0;
    if (!has_flags)
        facts_text(facts, "cleared", "{OUT{1'b0}}");
    else
        facts_text(facts, "cleared", "{{(OUT-%u){1'b0}}, %u'h%0*x}", flag_digits * 4,
                   flag_digits * 4, (int)flag_digits, zero);
}

/* One line of a mismatch: what went in, what came out, what should have. */
static void add_report(const Unit *unit, Facts *facts) {
    TextBuffer form = {0}, arguments = {0};
    char text[64], slice[64];
    const char *between = "";
    for (int pin = PIN_LINE; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin))
            continue;
        const char *role = unit_role(unit, (Pin)pin);
        snprintf(text, sizeof text, "%s=%%%c", role, is_word((Pin)pin) ? 'h' : 'b');
        append(&form, pin == PIN_RESULT ? " gives " : " ", text);
        slice_text(unit, "vector", (Pin)pin, slice, sizeof slice);
        append(&arguments, ", ", pin_is_output((Pin)pin) ? role : slice);
    }
    append(&form, "", ", expected");
    for (int pin = PIN_RESULT; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin))
            continue;
        between = is_word((Pin)pin) ? " %h" : " %b";
        slice_text(unit, "vector", (Pin)pin, slice, sizeof slice);
        append(&form, "", between);
        append(&arguments, ", ", slice);
    }
    facts_text(facts, "report_format", "%s", form.text);
    facts_text(facts, "report_arguments", "%s", arguments.text);
    text_free(&form);
    text_free(&arguments);
}

bool testbench_write(const Unit *unit, const VectorPlan *plan, uint64_t count, const char *command,
                     const Templates *templates, FILE *out, Problem *problem) {
    Facts *facts = unit_facts(unit, command);
    layout_facts(unit, facts);
    facts_text(facts, "count", "%llu", (unsigned long long)count);
    facts_text(facts, "seed", "%llu", (unsigned long long)plan->seed);
    facts_text(facts, "most", "%llu", (unsigned long long)plan->random);
    add_wires(unit, facts);
    add_connections(unit, facts);
    add_outputs(unit, facts);
    add_report(unit, facts);
    bool good = unit_facts_fill(facts, "contract", templates, "contract.v", problem) &&
                template_fill(templates, "testbench.v", facts, out, problem);
    facts_free(facts);
    return good;
}
