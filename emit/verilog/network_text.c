/* Carry structures as cells: which instances there are and what each is connected to, walked off
 * the record of the adder core: its prefix network, or its groups of columns. */
#include "base/memory.h"
#include "base/text.h"
#include "gates/prefix/prefix.h"
#include "gates/structures/columns.h"
#include "verilog/design.h"

#include <stdlib.h>

/* Stems of the wires' names, out of the way of the pins'. */
typedef struct {
    Design *design;
    const char *carry;     /* carry_8 enters column 8, */
    const char *carries;   /* as does carries[8] */
    const char *generates; /* generates[7] of a column, */
    const char *passes;
    const char *span_generates; /* and generates_7_4 of a span */
    const char *span_passes;
    const char *level; /* of instances */
    bool entered;      /* something enters column 0 */
} Network;

/* ---- names -------------------------------------------------------------------------------- */

static bool is_entered(const Design *design) {
    return core_enters(design->core, 0) != CORE_ENTERS_0;
}

static const char *carry_stem(Design *design) {
    return design_stem(design, role_text(core_carry_role(design->core)));
}

const char *network_carry(Design *design, unsigned column) {
    bool prefix = design->core->prefix != NULL;
    if (prefix && column == 0 && !is_entered(design))
        return "1'b0";
    if (prefix || column == design->unit->width)
        return design_text(design, "%s_%u", carry_stem(design), column);
    return design_text(design, "%s[%u]", design_name(design, "carries"), column);
}

static const char *carry_into(const Network *network, unsigned column) {
    return design_text(network->design, "%s_%u", network->carry, column);
}

/* What columns top ... bottom generate. */
static const char *generated_by(const Network *network, unsigned top, unsigned bottom) {
    return top == bottom
               ? design_text(network->design, "%s[%u]", network->generates, top)
               : design_text(network->design, "%s_%u_%u", network->span_generates, top, bottom);
}

/* Whether they let a carry through. */
static const char *passed_by(const Network *network, unsigned top, unsigned bottom) {
    return top == bottom
               ? design_text(network->design, "%s[%u]", network->passes, top)
               : design_text(network->design, "%s_%u_%u", network->span_passes, top, bottom);
}

static Network open_network(Design *design) {
    const Unit *unit = design->unit;
    Network network = {.design = design,
                       .carry = carry_stem(design),
                       .carries = design_name(design, "carries"),
                       .generates = design_name(design, "generates"),
                       .passes = design_name(design, "passes"),
                       .span_generates = design_stem(design, "generates"),
                       .span_passes = design_stem(design, "passes"),
                       .level = design_stem(design, "level"),
                       .entered = is_entered(design)};
    Facts *facts = design->facts;
    const StructureFacts *structure = structure_facts(unit->structure);
    facts_text(facts, "structure", "%s", structure_text(unit->structure, unit->depth).text);
    facts_text(facts, "structure_about", "%s", structure->meaning);
    facts_text(facts, "structure_source", "%s", structure->source);
    facts_text(facts, "carry", "%s", network.carry);
    facts_text(facts, "carries", "%s", network.carries);
    facts_text(facts, "last", "%s", carry_into(&network, unit->width));
    facts_text(facts, "lowest", "%s", carry_into(&network, 0));
    return network;
}

/* ---- a prefix network --------------------------------------------------------------------- */

/* Columns of the network are one more than the unit's where a first carry stands below them. */
static void add_cell(const Network *network, const PrefixCell *cell, Facts *level) {
    Design *design = network->design;
    const Prefix *prefix = design->core->prefix;
    unsigned below = network->entered ? 1 : 0, top = cell->top - below;
    unsigned middle = prefix_bottom(prefix, cell->high) - below;
    Facts *row = facts_row(level, "cell");
    facts_text(row, "instance", "%s_%u_column_%u", network->level, cell->level, top);
    facts_text(row, "high_generates", "%s", generated_by(network, top, middle));
    facts_text(row, "high_passes", "%s", passed_by(network, top, middle));
    facts_flag(row, "joins", cell->bottom > 0);
    if (cell->bottom == 0) {
        design_use(design, "carry_cell.v");
        facts_text(row, "carry_in", "%s", carry_into(network, middle));
        facts_text(row, "carry_out", "%s", carry_into(network, top + 1));
        return;
    }
    unsigned bottom = cell->bottom - below;
    design_use(design, "prefix_cell.v");
    facts_text(row, "low_generates", "%s", generated_by(network, middle - 1, bottom));
    facts_text(row, "low_passes", "%s", passed_by(network, middle - 1, bottom));
    facts_text(row, "span_generates", "%s", generated_by(network, top, bottom));
    facts_text(row, "span_passes", "%s", passed_by(network, top, bottom));
}

static int compare_cells(const void *one, const void *other) {
    const PrefixCell *x = *(const PrefixCell *const *)one, *y = *(const PrefixCell *const *)other;
    if (x->level != y->level)
        return x->level < y->level ? -1 : 1;
    return x->top < y->top ? -1 : x->top > y->top; /* no two of a level end at one column */
}

/* The cells by level, then by column. */
static void add_cells(const Network *network, const Prefix *prefix) {
    const PrefixCell **order = memory_zeroed(prefix->cell_count + 1u, sizeof order[0]);
    for (uint32_t k = 0; k < prefix->cell_count; k++)
        order[k] = &prefix->cell[k];
    qsort(order, prefix->cell_count, sizeof order[0], compare_cells);
    Facts *level = NULL;
    for (uint32_t k = 0; k < prefix->cell_count; k++) {
        if (k == 0 || order[k]->level > order[k - 1]->level) {
            level = facts_row(network->design->facts, "level");
            facts_text(level, "level", "%u", order[k]->level);
        }
        add_cell(network, order[k], level);
    }
    memory_free(order);
}

static void add_prefix(const Network *network) {
    Facts *facts = network->design->facts;
    facts_flag(facts, "entered", network->entered);
    facts_text(facts, "lowest", "%s", carry_into(network, network->entered ? 0 : 1));
    facts_list(facts, "level");
    add_cells(network, network->design->core->prefix);
    for (unsigned i = 0; i < network->design->unit->width; i++) {
        Facts *row = facts_row(facts, "sums");
        facts_text(row, "column", "%u", i);
        facts_text(row, "enters", "%s", i > 0 || network->entered ? carry_into(network, i) : "");
    }
}

/* ---- groups of columns -------------------------------------------------------------------- */

static void add_groups(const Network *network) {
    Design *design = network->design;
    const char *instance = design_stem(design, "group");
    bool selects = design->unit->structure == STRUCTURE_SELECT;
    for (uint32_t k = 0; k < design->core->group_count; k++) {
        const CoreGroup *group = &design->core->group[k];
        /* Where it is known what enters the lowest group, that has nothing to select. */
        bool ripples = selects && k == 0 && !network->entered;
        design_use(design, ripples   ? "ripple_group.v"
                           : selects ? "select_group.v"
                                     : "skip_group.v");
        Facts *row = facts_row(design->facts, "group");
        facts_text(row, "kind", ripples ? "first_group" : "group");
        facts_text(row, "size", "%u", group->top + 1 - group->bottom);
        facts_text(row, "instance", "%s_%u", instance, k);
        facts_text(row, "top", "%u", group->top);
        facts_text(row, "bottom", "%u", group->bottom);
        facts_text(row, "carry_in", "%s", carry_into(network, group->bottom));
        facts_text(row, "carry_out", "%s", carry_into(network, group->top + 1));
    }
}

/* ---- lookahead ---------------------------------------------------------------------------- */

typedef const char *SpanName(const Network *network, unsigned top, unsigned bottom);

static const char *entering(const Network *network, unsigned top, unsigned bottom) {
    (void)top;
    return carry_into(network, bottom);
}

/* What a unit is connected to for spans of so many columns each: a slice of a word of columns, or a
 * list, "{generates_7_4, generates_3_0}". */
static void add_pin(const Network *network, const char *word, SpanName *name, unsigned size,
                    unsigned top, unsigned bottom, const char *fact, Facts *row) {
    if (size == 1) {
        facts_text(row, fact, "%s[%u:%u]", word, top, bottom);
        return;
    }
    TextBuffer list = {0};
    unsigned highest = top / size * size;
    for (unsigned low = highest; low + size > bottom && low <= highest; low -= size)
        text_printf(&list, "%s%s", low == highest ? "" : ", ",
                    name(network, low == highest ? top : low + size - 1, low));
    facts_text(row, fact, bottom == highest ? "%s" : "{%s}", list.text);
    text_free(&list);
}

/* A unit over the spans of a group, of so many columns each but the highest. */
static void add_unit(const Network *network, const CoreGroup *group, unsigned size, Facts *level) {
    static const char *const templates[] = {"lookahead_2.v", "lookahead_3.v", "lookahead_4.v"};
    unsigned top = group->top, bottom = group->bottom, count = (top - bottom) / size + 1;
    design_use(network->design, templates[count - 2]);
    Facts *row = facts_row(level, "unit");
    facts_text(row, "size", "%u", count);
    facts_text(row, "instance", "%s_%u_group_%u", network->level, group->tier,
               bottom / (size * LOOKAHEAD_GROUP));
    add_pin(network, network->generates, generated_by, size, top, bottom, "unit_generates", row);
    add_pin(network, network->passes, passed_by, size, top, bottom, "unit_passes", row);
    add_pin(network, network->carries, entering, size, top, bottom + size, "unit_carries", row);
    facts_text(row, "carry_in", "%s", carry_into(network, bottom));
    facts_text(row, "span_generates", "%s", generated_by(network, top, bottom));
    facts_text(row, "span_passes", "%s", passed_by(network, top, bottom));
}

static void add_lookahead(const Network *network) {
    Facts *facts = network->design->facts, *level = NULL;
    unsigned width = network->design->unit->width, size = 1, tier = 0;
    facts_list(facts, "level");
    for (uint32_t k = 0; k < network->design->core->group_count; k++) {
        const CoreGroup *group = &network->design->core->group[k];
        size = tier > 0 && group->tier > tier ? size * LOOKAHEAD_GROUP : size;
        tier = group->tier;
        if (group->top - group->bottom < size)
            continue; /* a single span has nobody to tell */
        if (group->bottom == 0) {
            level = facts_row(facts, "level");
            facts_text(level, "level", "%u", tier);
            facts_text(level, "columns_each", "%u", size * LOOKAHEAD_GROUP);
        }
        add_unit(network, group, size, level);
    }
    facts_list(facts, "entering");
    for (unsigned i = 0; i < width; i += LOOKAHEAD_GROUP) {
        if (i > 0)
            facts_text(facts_row(facts, "entering"), "enters", "%s", carry_into(network, i));
        Facts *row = facts_row(facts, "bottom");
        facts_text(row, "column", "%u", i);
        facts_text(row, "enters", "%s", carry_into(network, i));
    }
    facts_text(facts, "all_generates", "%s", generated_by(network, width - 1, 0));
    facts_text(facts, "all_passes", "%s", passed_by(network, width - 1, 0));
}

const char *network_text(Design *design) {
    Network network = open_network(design);
    if (design->core->prefix != NULL) {
        add_prefix(&network);
        return "prefix.v";
    }
    if (design->unit->structure == STRUCTURE_LOOKAHEAD) {
        add_lookahead(&network);
        return "lookahead.v";
    }
    add_groups(&network);
    return "groups.v";
}
