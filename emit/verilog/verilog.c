/* See verilog.h. */
#include "verilog/verilog.h"

#include "base/memory.h"
#include "gates/netlist/cost.h"
#include "verilog/design.h"
#include "verilog/gate_text.h"
#include "verilog/identifier.h"
#include "verilog/unit_facts.h"

#include <string.h>

/* Where the circuit between the registers reads each input and leaves each output: the pins
 * themselves, or names beside them where registers stand in between. */
typedef struct {
    Identifier inside[PIN_COUNT];
    const char *source[PIN_COUNT];
} Ends;

static bool is_clocking(Pin pin) {
    return pin == PIN_CLK || pin == PIN_RST || pin == PIN_EN;
}

static void find_ends(const Unit *unit, Ends *ends) {
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        bool behind = pin_is_output((Pin)pin) ? unit->registers != REGISTERS_NONE
                                              : unit->registers == REGISTERS_BOTH;
        char stem[64];
        snprintf(stem, sizeof stem, "%s_%s", unit_role(unit, (Pin)pin),
                 pin_is_output((Pin)pin) ? "next" : "held");
        if (behind && !is_clocking((Pin)pin))
            ends->inside[pin] = identifier_free(unit, stem, false);
        else
            snprintf(ends->inside[pin].text, IDENTIFIER_BYTES, "%s", unit->pin[pin]);
        ends->source[pin] = ends->inside[pin].text;
    }
}

/* ---- ports and registers ------------------------------------------------------------------ */

static void add_ports(const Unit *unit, Facts *facts) {
    int last = 0;
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (unit_has(unit, (Pin)pin))
            last = pin;
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin))
            continue;
        bool output = pin_is_output((Pin)pin);
        bool mixed = unit->registers != REGISTERS_NONE;
        char range[32];
        unit_range(unit, (Pin)pin, true, range, sizeof range);
        Facts *row = facts_row(facts, "port");
        facts_text(row, "direction", output ? "output" : "input ");
        facts_text(row, "type", output && mixed ? "reg " : "wire");
        facts_text(row, "range", "%s", range);
        facts_text(row, "pin", "%s", unit->pin[pin]);
        facts_text(row, "comma", pin == last ? "" : ",");
    }
}

static const char *cleared(const Unit *unit, Pin pin, char *text, size_t room) {
    if (pin == PIN_FLAG + FLAG_ZERO)
        snprintf(text, room, "1'b1");
    else if (unit_pin_bits(unit, pin) == 1 && pin != PIN_A && pin != PIN_B && pin != PIN_RESULT)
        snprintf(text, room, "1'b0");
    else if (unit_keeps_width(unit) && pin != PIN_OP)
        snprintf(text, room, "{WIDTH{1'b0}}");
    else
        snprintf(text, room, "{%u{1'b0}}", unit_pin_bits(unit, pin));
    return text;
}

static void add_registers(const Unit *unit, const Ends *ends, Facts *facts) {
    facts_list(facts, "held");
    facts_list(facts, "next");
    facts_list(facts, "register");
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin) || strcmp(ends->source[pin], unit->pin[pin]) == 0)
            continue;
        bool output = pin_is_output((Pin)pin);
        const char *to = output ? unit->pin[pin] : ends->source[pin];
        const char *from = output ? ends->source[pin] : unit->pin[pin];
        char range[32], zero[64];
        unit_range(unit, (Pin)pin, false, range, sizeof range);
        Facts *declared = facts_row(facts, output ? "next" : "held");
        facts_text(declared, "range", "%s", range);
        facts_text(declared, output ? "next" : "register", "%s", ends->source[pin]);
        Facts *row = facts_row(facts, "register");
        facts_text(row, "register", "%s", to);
        facts_text(row, "next", "%s", from);
        facts_text(row, "cleared", "%s", cleared(unit, (Pin)pin, zero, sizeof zero));
    }
}

static void add_ends(const Unit *unit, const Ends *ends, Facts *facts) {
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        char fact[64];
        bool has = unit_has(unit, (Pin)pin);
        snprintf(fact, sizeof fact, "%s.%s", pin_is_output((Pin)pin) ? "out" : "in",
                 unit_role(unit, (Pin)pin));
        facts_text(facts, fact, "%s", has ? ends->source[pin] : "");
    }
}

/* ---- the file ----------------------------------------------------------------------------- */

static bool is_gates(const Unit *unit) {
    return unit->detail == DETAIL_GATES || unit->detail == DETAIL_NAND ||
           unit->detail == DETAIL_NOR;
}

/* The kind of gate, where the unit is made of one kind alone. */
static void add_kind(const Unit *unit, const Netlist *netlist, Facts *facts) {
    bool nand = unit->detail == DETAIL_NAND, nor = unit->detail == DETAIL_NOR;
    facts_text(facts, "primitive", nand ? "nand" : nor ? "nor" : "");
    uint32_t gates = cost_count(netlist).gates;
    facts_text(facts, "only", gates == 0 ? "" : nand ? "NAND" : nor ? "NOR" : "");
    facts_text(facts, "gate_count", "%u", gates);
}

static bool fill_module(Facts *facts, const Templates *templates, const char *template,
                        Problem *problem) {
    return unit_facts_fill(facts_row(facts, "module"), "module", templates, template, problem);
}

/* The ripple chain's cells, or those of a network. */
static bool fill_modules(const Design *design, const Templates *templates, Problem *problem) {
    Facts *facts = design->facts;
    facts_list(facts, "module");
    for (int k = 0; k < design->cells; k++)
        if (!fill_module(facts, templates, design->cell[k], problem))
            return false;
    return design->network || (fill_module(facts, templates, "full_adder.v", problem) &&
                               fill_module(facts, templates, "half_adder.v", problem));
}

static bool fill_core(const Unit *unit, const Netlist *netlist, const Ends *ends, Facts *facts,
                      const Templates *templates, Problem *problem) {
    if (is_gates(unit)) {
        gate_text(unit, netlist, ends->source, facts);
        return unit_facts_fill(facts, "core", templates, "gates.v", problem);
    }
    Design design;
    design_open(&design, unit, netlist->core, ends->source, facts);
    operand_text(&design);
    const char *core = unit->detail == DETAIL_CELLS ? "cells.v" : "operators.v";
    if (design.network) {
        column_text(&design);
        core = network_text(&design);
    }
    flag_text(&design);
    bool good =
        unit_facts_fill(facts, "operands", templates, "operands.v", problem) &&
        (!design.network || unit_facts_fill(facts, "columns", templates, "columns.v", problem)) &&
        unit_facts_fill(facts, "flags", templates, "flags.v", problem) &&
        fill_modules(&design, templates, problem) &&
        unit_facts_fill(facts, "core", templates, core, problem);
    design_close(&design);
    return good;
}

bool verilog_write(const Unit *unit, const Netlist *netlist, const char *command,
                   const Templates *templates, FILE *out, Problem *problem) {
    Facts *facts = unit_facts(unit, command);
    Ends ends;
    find_ends(unit, &ends);
    add_ports(unit, facts);
    add_registers(unit, &ends, facts);
    add_ends(unit, &ends, facts);
    add_kind(unit, netlist, facts);
    bool good = unit_facts_fill(facts, "contract", templates, "contract.v", problem) &&
                unit_facts_fill(facts, "header", templates, "header.v", problem) &&
                fill_core(unit, netlist, &ends, facts, templates, problem) &&
                template_fill(templates, "unit.v", facts, out, problem);
    facts_free(facts);
    return good;
}
