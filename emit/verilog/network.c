/* See network.h. */
#include "verilog/network.h"

#include "base/memory.h"
#include "gates/netlist/core.h"
#include "gates/prefix/prefix.h"
#include "gates/structures/columns.h"
#include "gates/structures/structure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The wires' names, out of the way of the pins' names. */
typedef struct {
    const Unit *unit;
    const Netlist *netlist;
    Facts *facts;
    Identifier carry;     /* carry_8 enters column 8, */
    Identifier carries;   /* as does carries[8] */
    Identifier generates; /* generates[7] of a column, */
    Identifier passes;
    Identifier span_generates; /* and generates_7_4 of a span */
    Identifier span_passes;
    Identifier level; /* of instances */
    NetworkCells cells;
} Network;

typedef struct {
    char text[IDENTIFIER_BYTES + 32];
} Wire;

bool network_has(const Unit *unit) {
    return unit->detail == DETAIL_CELLS && unit->structure != STRUCTURE_RIPPLE;
}

const char *network_template(const Unit *unit) {
    if (structure_network(unit->structure) != NULL)
        return "prefix.v";
    return structure_groups(unit->structure) != NULL ? "groups.v" : "lookahead.v";
}

/* ---- names -------------------------------------------------------------------------------- */

Identifier network_carry(const Unit *unit, const Netlist *netlist, unsigned column) {
    bool prefix = structure_network(unit->structure) != NULL;
    Identifier stem = identifier_free(unit, role_text(core_carry_role(netlist->core)), true), name;
    if (prefix && column == 0 && core_enters(netlist->core, 0) == CORE_ENTERS_0)
        snprintf(name.text, sizeof name.text, "1'b0");
    else if (prefix || column == unit->width)
        snprintf(name.text, sizeof name.text, "%.*s_%u", UNIT_NAME_MAX, stem.text, column);
    else
        snprintf(name.text, sizeof name.text, "%.*s[%u]", UNIT_NAME_MAX,
                 identifier_free(unit, "carries", false).text, column);
    return name;
}

static Wire numbered(const Identifier *stem, unsigned number) {
    Wire wire;
    snprintf(wire.text, sizeof wire.text, "%s_%u", stem->text, number);
    return wire;
}

/* Of columns top ... bottom. */
static Wire of_span(const Identifier *word, const Identifier *stem, unsigned top, unsigned bottom) {
    Wire wire;
    if (top == bottom)
        snprintf(wire.text, sizeof wire.text, "%s[%u]", word->text, top);
    else
        snprintf(wire.text, sizeof wire.text, "%s_%u_%u", stem->text, top, bottom);
    return wire;
}

static void open_network(Network *network) {
    const Unit *unit = network->unit;
    network->carry =
        identifier_free(unit, role_text(core_carry_role(network->netlist->core)), true);
    network->carries = identifier_free(unit, "carries", false);
    network->generates = identifier_free(unit, "generates", false);
    network->passes = identifier_free(unit, "passes", false);
    network->span_generates = identifier_free(unit, "generates", true);
    network->span_passes = identifier_free(unit, "passes", true);
    network->level = identifier_free(unit, "level", true);
    Facts *facts = network->facts;
    facts_text(facts, "structure", "%s", structure_name(unit->structure));
    if (unit->structure == STRUCTURE_DEPTH)
        facts_text(facts, "structure", "%s=%u", structure_name(unit->structure), unit->depth);
    facts_text(facts, "structure_about", "%s", structure_facts(unit->structure)->meaning);
    facts_text(facts, "structure_source", "%s", structure_facts(unit->structure)->source);
    facts_text(facts, "carry", "%s", network->carry.text);
    facts_text(facts, "carries", "%s", network->carries.text);
    facts_text(facts, "last", "%s", numbered(&network->carry, unit->width).text);
    facts_text(facts, "lowest", "%s", numbered(&network->carry, 0).text);
}

/* Notes that a cell is in use. */
static void use(Network *network, const char *template) {
    NetworkCells *cells = &network->cells;
    for (int k = 0; k < cells->count; k++)
        if (strcmp(cells->template[k], template) == 0)
            return;
    cells->template[cells->count++] = template;
}

/* ---- a prefix network --------------------------------------------------------------------- */

/* One cell; below is the number of columns below column 0, where a first carry stands. */
static void add_cell(Network *network, const Prefix *prefix, const PrefixCell *cell, unsigned below,
                     Facts *level) {
    const PrefixCell *high =
        cell->high < prefix->columns ? NULL : &prefix->cell[cell->high - prefix->columns];
    unsigned split = high == NULL ? cell->high : high->bottom; /* the lowest column of high */
    unsigned top = cell->top - below, middle = split - below;
    const Identifier *generates = &network->generates, *passes = &network->passes;
    Facts *row = facts_row(level, "cell");
    facts_text(row, "instance", "%s_%u_column_%u", network->level.text, cell->level, top);
    facts_text(row, "high_generates", "%s",
               of_span(generates, &network->span_generates, top, middle).text);
    facts_text(row, "high_passes", "%s", of_span(passes, &network->span_passes, top, middle).text);
    facts_flag(row, "joins", cell->bottom > 0);
    use(network, cell->bottom > 0 ? "prefix_cell.v" : "carry_cell.v");
    if (cell->bottom == 0) {
        facts_text(row, "carry_in", "%s", numbered(&network->carry, middle).text);
        facts_text(row, "carry_out", "%s", numbered(&network->carry, top + 1).text);
        return;
    }
    unsigned bottom = cell->bottom - below;
    Wire low = of_span(generates, &network->span_generates, middle - 1, bottom);
    facts_text(row, "low_generates", "%s", low.text);
    low = of_span(passes, &network->span_passes, middle - 1, bottom);
    facts_text(row, "low_passes", "%s", low.text);
    facts_text(row, "span_generates", "%s",
               of_span(generates, &network->span_generates, top, bottom).text);
    facts_text(row, "span_passes", "%s", of_span(passes, &network->span_passes, top, bottom).text);
}

static int compare_cells(const void *one, const void *other) {
    const PrefixCell *x = *(const PrefixCell *const *)one, *y = *(const PrefixCell *const *)other;
    if (x->level != y->level)
        return x->level < y->level ? -1 : 1;
    return x->top < y->top ? -1 : x->top > y->top; /* no two of a level end at one column */
}

/* The cells by level, then by column. The caller frees the list. */
static const PrefixCell **in_order(const Prefix *prefix) {
    const PrefixCell **order = memory_zeroed(prefix->cell_count + 1u, sizeof order[0]);
    for (uint32_t k = 0; k < prefix->cell_count; k++)
        order[k] = &prefix->cell[k];
    qsort(order, prefix->cell_count, sizeof order[0], compare_cells);
    return order;
}

static void add_prefix(Network *network) {
    const Unit *unit = network->unit;
    Facts *facts = network->facts;
    const Prefix *prefix = network->netlist->core->prefix;
    bool entered = core_enters(network->netlist->core, 0) != CORE_ENTERS_0;
    facts_flag(facts, "entered", entered);
    facts_text(facts, "lowest", "%s", numbered(&network->carry, entered ? 0 : 1).text);
    facts_list(facts, "level");
    const PrefixCell **order = in_order(prefix);
    Facts *level = NULL;
    for (uint32_t k = 0; k < prefix->cell_count; k++) {
        if (k == 0 || order[k]->level > order[k - 1]->level) {
            level = facts_row(facts, "level");
            facts_text(level, "level", "%u", order[k]->level);
        }
        add_cell(network, prefix, order[k], entered ? 1 : 0, level);
    }
    memory_free(order);
    for (unsigned i = 0; i < unit->width; i++) {
        Facts *row = facts_row(facts, "sums");
        facts_text(row, "column", "%u", i);
        facts_text(row, "enters", "%s", i > 0 || entered ? numbered(&network->carry, i).text : "");
    }
}

/* ---- groups of columns -------------------------------------------------------------------- */

static void add_groups(Network *network) {
    unsigned width = network->unit->width, end;
    bool selects = network->unit->structure == STRUCTURE_SELECT;
    GroupSize *size = structure_groups(network->unit->structure);
    for (unsigned group = 0, start = 0; start < width; group++, start = end) {
        end = columns_group_end(size, width, group, start);
        /* Where it is known what enters the lowest group, that has nothing to select. */
        bool ripples =
            selects && group == 0 && core_enters(network->netlist->core, 0) == CORE_ENTERS_0;
        use(network, ripples ? "ripple_group.v" : selects ? "select_group.v" : "skip_group.v");
        Facts *row = facts_row(network->facts, "group");
        facts_text(row, "kind", ripples ? "first_group" : "group");
        facts_text(row, "size", "%u", end - start);
        facts_text(row, "instance", "%s_%u", identifier_free(network->unit, "group", true).text,
                   group);
        facts_text(row, "top", "%u", end - 1);
        facts_text(row, "bottom", "%u", start);
        facts_text(row, "carry_in", "%s", numbered(&network->carry, start).text);
        facts_text(row, "carry_out", "%s", numbered(&network->carry, end).text);
    }
}

/* ---- lookahead ---------------------------------------------------------------------------- */

/* Neighbouring spans of columns, lowest first; the highest may have fewer columns. */
typedef struct {
    unsigned count;
    unsigned size; /* columns in each */
    unsigned width;
} Spans;

static unsigned top_of(const Spans *spans, unsigned span) {
    unsigned end = (span + 1) * spans->size;
    return (end < spans->width ? end : spans->width) - 1;
}

typedef enum { PIN_GENERATES, PIN_PASSES, PIN_CARRIES } UnitPin;

static Wire pin_of_span(const Network *network, const Spans *spans, unsigned span, UnitPin pin) {
    unsigned top = top_of(spans, span), bottom = span * spans->size;
    if (pin == PIN_CARRIES)
        return numbered(&network->carry, bottom);
    return pin == PIN_GENERATES
               ? of_span(&network->generates, &network->span_generates, top, bottom)
               : of_span(&network->passes, &network->span_passes, top, bottom);
}

/* What a unit is connected to for spans last ... first: a slice of the columns, or a list,
 * "{generates_7_4, generates_3_0}". */
static void add_pin(const Network *network, const Spans *spans, unsigned first, unsigned last,
                    UnitPin pin, const char *fact, Facts *row) {
    if (spans->size == 1) {
        const char *word = pin == PIN_GENERATES ? network->generates.text
                           : pin == PIN_PASSES  ? network->passes.text
                                                : network->carries.text;
        facts_text(row, fact, "%s[%u:%u]", word, last, first);
        return;
    }
    char list[LOOKAHEAD_GROUP * (sizeof(Wire) + 2)] = "";
    size_t used = 0;
    for (unsigned k = last + 1; k-- > first;)
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s",
                                 pin_of_span(network, spans, k, pin).text, k == first ? "" : ", ");
    facts_text(row, fact, first == last ? "%s" : "{%s}", list);
}

static void add_unit(Network *network, const Spans *spans, unsigned first, unsigned last,
                     Facts *level, unsigned number) {
    static const char *const templates[] = {"lookahead_2.v", "lookahead_3.v", "lookahead_4.v"};
    unsigned group = first / LOOKAHEAD_GROUP;
    Spans groups = {0, spans->size * LOOKAHEAD_GROUP, spans->width};
    use(network, templates[last - first - 1]);
    Facts *row = facts_row(level, "unit");
    facts_text(row, "size", "%u", last - first + 1);
    facts_text(row, "instance", "%s_%u_group_%u", network->level.text, number, group);
    add_pin(network, spans, first, last, PIN_GENERATES, "unit_generates", row);
    add_pin(network, spans, first, last, PIN_PASSES, "unit_passes", row);
    add_pin(network, spans, first + 1, last, PIN_CARRIES, "unit_carries", row);
    facts_text(row, "carry_in", "%s", pin_of_span(network, spans, first, PIN_CARRIES).text);
    facts_text(row, "span_generates", "%s",
               pin_of_span(network, &groups, group, PIN_GENERATES).text);
    facts_text(row, "span_passes", "%s", pin_of_span(network, &groups, group, PIN_PASSES).text);
}

static void add_lookahead(Network *network) {
    Facts *facts = network->facts;
    unsigned width = network->unit->width, number = 0;
    Spans spans = {width, 1, width};
    facts_list(facts, "level");
    for (; spans.count > 1; spans.size *= LOOKAHEAD_GROUP) {
        Facts *level = facts_row(facts, "level");
        facts_text(level, "level", "%u", ++number);
        facts_text(level, "columns_each", "%u", spans.size * LOOKAHEAD_GROUP);
        for (unsigned first = 0; first < spans.count; first += LOOKAHEAD_GROUP) {
            unsigned last = first + LOOKAHEAD_GROUP - 1;
            if (last >= spans.count)
                last = spans.count - 1;
            if (last > first)
                add_unit(network, &spans, first, last, level, number);
        }
        spans.count = (spans.count + LOOKAHEAD_GROUP - 1) / LOOKAHEAD_GROUP;
    }
    facts_list(facts, "entering");
    for (unsigned i = 0; i < width; i += LOOKAHEAD_GROUP) {
        if (i > 0)
            facts_text(facts_row(facts, "entering"), "enters", "%s",
                       numbered(&network->carry, i).text);
        Facts *row = facts_row(facts, "bottom");
        facts_text(row, "column", "%u", i);
        facts_text(row, "enters", "%s", numbered(&network->carry, i).text);
    }
    facts_text(facts, "all_generates", "%s", pin_of_span(network, &spans, 0, PIN_GENERATES).text);
    facts_text(facts, "all_passes", "%s", pin_of_span(network, &spans, 0, PIN_PASSES).text);
}

NetworkCells network_facts(const Unit *unit, const Netlist *netlist, Facts *facts) {
    Network *network = memory_zeroed(1, sizeof *network); /* large */
    *network = (Network){.unit = unit, .netlist = netlist, .facts = facts};
    open_network(network);
    if (structure_network(unit->structure) != NULL)
        add_prefix(network);
    else if (structure_groups(unit->structure) != NULL)
        add_groups(network);
    else
        add_lookahead(network);
    NetworkCells cells = network->cells;
    memory_free(network);
    return cells;
}
