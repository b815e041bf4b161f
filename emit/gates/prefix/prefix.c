/* See prefix.h. */
#include "gates/prefix/prefix.h"

#include "base/memory.h"
#include "gates/structures/columns.h"

#include <assert.h>

/* ---- the network --------------------------------------------------------------------------- */

void prefix_init(Prefix *prefix, unsigned columns) {
    assert(columns > 0);
    *prefix = (Prefix){.columns = columns, .whole = memory_zeroed(columns, sizeof(uint32_t))};
    for (unsigned i = 0; i < columns; i++)
        prefix->whole[i] = i;
}

void prefix_free(Prefix *prefix) {
    memory_free(prefix->whole);
    memory_free(prefix->cell);
    *prefix = (Prefix){0};
}

static const PrefixCell *cell_of(const Prefix *prefix, uint32_t node) {
    assert(node >= prefix->columns && node - prefix->columns < prefix->cell_count);
    return &prefix->cell[node - prefix->columns];
}

unsigned prefix_level(const Prefix *prefix, uint32_t node) {
    return node < prefix->columns ? 0 : cell_of(prefix, node)->level;
}

static unsigned prefix_top(const Prefix *prefix, uint32_t node) {
    return node < prefix->columns ? node : cell_of(prefix, node)->top;
}

unsigned prefix_bottom(const Prefix *prefix, uint32_t node) {
    return node < prefix->columns ? node : cell_of(prefix, node)->bottom;
}

uint32_t prefix_join(Prefix *prefix, uint32_t high, uint32_t low) {
    assert(prefix_bottom(prefix, high) == prefix_top(prefix, low) + 1);
    prefix->cell = memory_grow(prefix->cell, &prefix->cell_room, prefix->cell_count + 1u,
                               sizeof prefix->cell[0]);
    unsigned above = prefix_level(prefix, high), below = prefix_level(prefix, low);
    prefix->cell[prefix->cell_count++] = (PrefixCell){.high = high,
                                                      .low = low,
                                                      .top = prefix_top(prefix, high),
                                                      .bottom = prefix_bottom(prefix, low),
                                                      .level = 1 + (above > below ? above : below)};
    return prefix->columns + prefix->cell_count - 1;
}

void prefix_extend(Prefix *prefix, unsigned high, unsigned low) {
    assert(low < high && high < prefix->columns);
    prefix->whole[high] = prefix_join(prefix, prefix->whole[high], prefix->whole[low]);
}

unsigned prefix_depth(const Prefix *prefix) {
    unsigned depth = 0;
    for (uint32_t k = 0; k < prefix->cell_count; k++)
        if (prefix->cell[k].level > depth)
            depth = prefix->cell[k].level;
    return depth;
}

unsigned prefix_least_depth(unsigned columns) {
    unsigned depth = 0;
    while ((UINT64_C(1) << depth) < columns)
        depth++;
    return depth;
}

/* ---- its gates ----------------------------------------------------------------------------- */

/* What is known of the nodes. */
typedef struct {
    Literal *generates;
    Literal *passes;
    uint32_t *mark; /* their cells in the record */
} Spans;

static void add_cell(Netlist *netlist, const Prefix *prefix, uint32_t k, Spans *spans,
                     unsigned below) {
    const PrefixCell *cell = &prefix->cell[k];
    uint32_t node = prefix->columns + k;
    int top = (int)cell->top - (int)below, bottom = (int)cell->bottom - (int)below;
    Literal above = spans->passes[cell->high];
    Literal through = netlist_and(netlist, above, spans->generates[cell->low]);
    netlist_mean_span(netlist, through, ROLE_HANDED_ON, top, bottom);
    spans->generates[node] = netlist_or(netlist, spans->generates[cell->high], through);
    spans->passes[node] = netlist_and(netlist, above, spans->passes[cell->low]);
    bool carry = cell->bottom == 0;
    CoreCell mark = {.kind = carry ? CORE_CARRY : CORE_JOIN,
                     .top = top,
                     .bottom = bottom,
                     .generates = spans->generates[node],
                     .passes = carry ? LITERAL_NONE : spans->passes[node]};
    spans->mark[node] =
        core_cell_of_two(netlist->core, mark, spans->mark[cell->high], spans->mark[cell->low]);
    if (carry)
        return; /* columns_close has its name */
    netlist_mean_span(netlist, spans->generates[node], ROLE_GENERATES, top, bottom);
    netlist_mean_span(netlist, spans->passes[node], ROLE_PASSES, top, bottom);
}

static void add_network(Netlist *netlist, const Prefix *prefix, Columns *columns, unsigned below) {
    size_t nodes = prefix->columns + prefix->cell_count;
    Spans spans = {memory_zeroed(nodes, sizeof(Literal)), memory_zeroed(nodes, sizeof(Literal)),
                   memory_zeroed(nodes, sizeof(uint32_t))};
    if (below == 1) {
        spans.generates[0] = columns->first;
        spans.mark[0] = columns->giver[0];
    }
    for (unsigned i = 0; i < columns->width; i++) {
        spans.generates[i + below] = columns->generates[i];
        spans.passes[i + below] = columns->passes[i];
        spans.mark[i + below] = columns->column[i];
    }
    unsigned depth = prefix_depth(prefix);
    for (unsigned level = 1; level <= depth; level++) {
        netlist_enter(netlist, PART_LEVELS, (int)level);
        for (uint32_t k = 0; k < prefix->cell_count; k++)
            if (prefix->cell[k].level == level)
                add_cell(netlist, prefix, k, &spans, below);
    }
    for (unsigned i = 0; i < columns->width; i++) {
        assert(prefix_bottom(prefix, prefix->whole[i + below]) == 0);
        columns->carry[i + 1] = spans.generates[prefix->whole[i + below]];
        columns->giver[i + 1] = spans.mark[prefix->whole[i + below]];
    }
    memory_free(spans.generates);
    memory_free(spans.passes);
    memory_free(spans.mark);
}

void prefix_build(Netlist *netlist, Adder *adder, PrefixMake *make) {
    Columns columns;
    columns_open(netlist, adder, &columns);
    unsigned below = columns.first != LITERAL_0 ? 1 : 0;
    Prefix *prefix = netlist->core->prefix = memory_zeroed(1, sizeof *prefix);
    prefix_init(prefix, columns.width + below);
    make(prefix, adder->depth);
    add_network(netlist, prefix, &columns, below);
    columns_close(netlist, adder, &columns);
}
