/* See unit_facts.h. */
#include "verilog/unit_facts.h"

#include "base/memory.h"

#include <string.h>

bool unit_facts_fill(Facts *facts, const char *fact, const Templates *templates,
                     const char *template, Problem *problem) {
    size_t bytes;
    char *text = template_text(templates, template, facts, &bytes, problem);
    if (text != NULL)
        facts_adopt(facts, fact, text, bytes);
    return text != NULL;
}

/* ---- pins --------------------------------------------------------------------------------- */

/* The name that templates know a pin by, whatever the unit calls it. */
static const char *fact_role(const Unit *unit, Pin pin) {
    if (pin == PIN_LINE)
        return "line";
    return pin == PIN_RST ? "rst" : unit_role(unit, pin);
}

static bool is_word(Pin pin) {
    return pin == PIN_A || pin == PIN_B || pin == PIN_RESULT;
}

static int range_text(const Unit *unit, Pin pin, char *text, size_t room) {
    unsigned bits = unit_pin_bits(unit, pin);
    if (is_word(pin) && unit_keeps_width(unit))
        return snprintf(text, room, "[WIDTH-1:0] ");
    if (is_word(pin) || bits > 1)
        return snprintf(text, room, "[%u:0] ", bits - 1);
    return snprintf(text, room, "%s", "");
}

void unit_range(const Unit *unit, Pin pin, bool padded, char *text, size_t room) {
    int used = range_text(unit, pin, text, room);
    char widest[32];
    int column = range_text(unit, PIN_RESULT, widest, sizeof widest);
    if (padded)
        snprintf(text + used, room - (size_t)used, "%*s", column - used, "");
}

static void add_pins(const Unit *unit, Facts *facts) {
    char fact[64];
    size_t widest = 0;
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (unit_has(unit, (Pin)pin) && strlen(unit->pin[pin]) > widest)
            widest = strlen(unit->pin[pin]);
    facts_list(facts, "request");
    facts_list(facts, "flag");
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        bool has = unit_has(unit, (Pin)pin);
        snprintf(fact, sizeof fact, "pin.%s", fact_role(unit, (Pin)pin));
        facts_text(facts, fact, "%s", has ? unit->pin[pin] : "");
        snprintf(fact, sizeof fact, "column.%s", fact_role(unit, (Pin)pin));
        facts_text(facts, fact, "%-*s  ", (int)widest, has ? unit->pin[pin] : "");
        Pin kind = pin_kind((Pin)pin);
        bool told = pin == (int)pin_of_flag(FLAG_CARRY); /* operation by operation */
        if (!has || told || (kind != PIN_DO && kind != PIN_FLAG))
            continue;
        Facts *row = facts_row(facts, kind == PIN_DO ? "request" : "flag");
        facts_text(row, "column", "%-*s  ", (int)widest, unit->pin[pin]);
        if (kind == PIN_DO)
            facts_text(row, "operation", "%s", operation_name(pin_operation((Pin)pin)));
        else
            facts_text(row, "meaning", "%s", flag_facts(pin_flag((Pin)pin))->meaning);
    }
}

/* ---- operations --------------------------------------------------------------------------- */

static void selector_text(const Unit *unit, int choice, char *text, size_t room) {
    uint32_t value = unit_control_value(unit, choice);
    Pin request = (Pin)(PIN_DO + (int)unit->choice[choice].operation);
    switch (unit->control) {
    case CONTROL_HIGH:
    case CONTROL_LOW:
        snprintf(text, room, "where %s is %u", unit->pin[PIN_LINE], (unsigned)value);
        return;
    case CONTROL_ONE_HOT:
        snprintf(text, room, "where %s is 1", unit->pin[request]);
        return;
    case CONTROL_CODE: {
        int used = snprintf(text, room, "where %s is ", unit->pin[PIN_OP]);
        for (unsigned bit = unit->code_bits; bit-- > 0;)
            used += snprintf(text + used, room - (size_t)used, "%u", value >> bit & 1);
        return;
    }
    case CONTROL_FIXED:
    case CONTROL_UNSET:
        text[0] = '\0';
    }
}

static void add_operations(const Unit *unit, Facts *facts) {
    char names[128], selector[UNIT_NAME_MAX + 64];
    size_t used = 0;
    for (int k = 0; k < unit->choice_count; k++) {
        const OperationFacts *operation = operation_facts(unit->choice[k].operation);
        const char *between = k == 0 ? "" : k + 1 == unit->choice_count ? " and " : ", ";
        used +=
            (size_t)snprintf(names + used, sizeof names - used, "%s%s", between, operation->name);
        selector_text(unit, k, selector, sizeof selector);
        Facts *row = facts_row(facts, "operation");
        if (selector[0] == '\0')
            facts_text(row, "row", "%-6s%s", operation->name, operation->formula);
        else
            facts_text(row, "row", "%-6s%-16s%s", operation->name, operation->formula, selector);
    }
    facts_text(facts, "operations", "%s", names);
    facts_flag(facts, "idle", unit_can_idle(unit));
    facts_flag(facts, "one_hot", unit->control == CONTROL_ONE_HOT);
    if (unit->control == CONTROL_CODE)
        facts_text(facts, "selectors", "%s", unit->pin[PIN_OP]);
    else
        facts_text(facts, "selectors", "the request pins");
}

static bool does(const Unit *unit, Operation operation) {
    for (int k = 0; k < unit->choice_count; k++)
        if (unit->choice[k].operation == operation)
            return true;
    return false;
}

/* What the carry pins say in each operation, in the order of Operation. */
static void add_carries(const Unit *unit, Facts *facts) {
    bool adds = false, subtracts = unit_any_subtracts(unit);
    const char *still = NULL; /* an operation that has nothing to carry */
    facts_list(facts, "cin_reader");
    for (int op = 0; op < OP_COUNT; op++) {
        const OperationFacts *operation = operation_facts((Operation)op);
        if (!does(unit, (Operation)op))
            continue;
        if (operation->y == ADDEND_ZEROS && operation->first == ENTERS_0 && !operation->subtracts)
            still = operation->name;
        else
            adds = adds || !operation->subtracts;
        if (!operation->reads_cin)
            continue;
        Facts *row = facts_row(facts, "cin_reader");
        facts_text(row, "operation", "%s", operation->name);
        facts_flag(row, "subtracts", operation->subtracts);
    }
    facts_flag(facts, "borrow", unit->sense == SENSE_BORROW);
    facts_flag(facts, "carry.adds", adds);
    facts_flag(facts, "carry.subtracts", subtracts);
    facts_flag(facts, "carry.never", !adds && !subtracts);
    facts_text(facts, "carry.still", "%s", still != NULL && (adds || subtracts) ? still : "");
    facts_flag(facts, "saturates_signed", unit->overflow == OVERFLOW_SATURATE_SIGNED);
    facts_flag(facts, "saturates_unsigned", unit->overflow == OVERFLOW_SATURATE_UNSIGNED);
}

/* ---- registers ---------------------------------------------------------------------------- */

static void add_registers(const Unit *unit, Facts *facts) {
    bool reset = unit_has(unit, PIN_RST);
    facts_flag(facts, "registered", unit->registers != REGISTERS_NONE);
    facts_flag(facts, "two_stages", unit->registers == REGISTERS_BOTH);
    facts_text(facts, "latency", "%u", unit_latency(unit));
    facts_text(facts, "edges", unit_latency(unit) == 1 ? "edge" : "edges");
    facts_flag(facts, "reset", reset);
    facts_flag(facts, "async", unit->reset == RESET_ASYNC);
    facts_flag(facts, "enable", unit->enable);
    facts_text(facts, "reset_kind", unit->reset == RESET_ASYNC ? "asynchronous" : "synchronous");
    facts_text(facts, "reset_level", unit->reset_low ? "low" : "high");
    facts_text(facts, "reset_edge", unit->reset_low ? "negedge" : "posedge");
    facts_text(facts, "reset_condition", "%s%s", unit->reset_low ? "!" : "", unit->pin[PIN_RST]);
    facts_text(facts, "reset_on", unit->reset_low ? "1'b0" : "1'b1");
    facts_text(facts, "reset_off", unit->reset_low ? "1'b1" : "1'b0");
}

Facts *unit_facts(const Unit *unit, const char *command) {
    Facts *facts = facts_new();
    facts_text(facts, "name", "%s", unit->name);
    facts_text(facts, "width", "%u", unit->width);
    facts_text(facts, "command", "%s", command);
    facts_flag(facts, "keeps_width", unit_keeps_width(unit));
    facts_flag(facts, "cells", unit->detail == DETAIL_CELLS);
    add_pins(unit, facts);
    add_operations(unit, facts);
    add_carries(unit, facts);
    add_registers(unit, facts);
    return facts;
}
