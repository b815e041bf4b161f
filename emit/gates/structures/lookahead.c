/* Carry lookahead: groups of four columns say whether they make a carry and whether they pass one
 * on, groups of four groups say the same of theirs, and so on; the carries then come back down.
 * Each is the sum of products of the textbook, "made here, or made there and passed on all the
 * way". A. Weinberger, J. L. Smith, "A logic for high-speed addition", National Bureau of Standards
 * Circular 591, 1958 (from memory). */
#include "base/memory.h"
#include "gates/structures/columns.h"

#include <assert.h>

enum { GROUP = LOOKAHEAD_GROUP };

/* Neighbouring spans of columns, lowest first, the carry that enters each, and the one that leaves
 * the highest. */
typedef struct {
    unsigned count;
    unsigned size;  /* columns in each; the highest may have fewer, */
    unsigned width; /* of so many altogether */
    Literal *generates;
    Literal *passes;
    Literal *carry;
    uint32_t *mark;  /* of the record: the spans' cells, */
    uint32_t *giver; /* and those that their carries are from */
} Spans;

static unsigned top_of(const Spans *spans, unsigned span) {
    assert(span * spans->size < spans->width);
    unsigned end = (span + 1) * spans->size;
    return (end < spans->width ? end : spans->width) - 1;
}

/* All of spans first ... last as one. */
static void join(Netlist *netlist, const Spans *spans, unsigned first, unsigned last,
                 Literal *generates, Literal *passes) {
    assert(first <= last && last < spans->count);
    int top = (int)top_of(spans, last);
    *generates = spans->generates[last];
    *passes = spans->passes[last];
    for (unsigned k = last; k-- > first;) {
        Literal product = netlist_and(netlist, *passes, spans->generates[k]);
        int bottom = (int)(k * spans->size);
        netlist_mean_span(netlist, product, ROLE_HANDED_ON, top, bottom);
        *generates = netlist_or(netlist, *generates, product);
        netlist_mean_span(netlist, *generates, ROLE_GENERATES, top, bottom);
        *passes = netlist_and(netlist, *passes, spans->passes[k]);
        netlist_mean_span(netlist, *passes, ROLE_PASSES, top, bottom);
    }
}

/* The same in the record: spans last ... first and, for a carry out of them, the one that enters
 * them. */
static uint32_t mark(Netlist *netlist, CoreKind kind, const Spans *spans, unsigned first,
                     unsigned last, Literal generates, Literal passes, uint32_t entering) {
    CoreCell cell = core_cell_of(kind, top_of(spans, last), first * spans->size, generates, passes);
    for (unsigned k = last + 1; k-- > first;)
        cell.in[cell.in_count++] = spans->mark[k];
    cell.in[cell.in_count++] = entering;
    return core_cell(netlist->core, cell);
}

static unsigned group_end(const Spans *spans, unsigned group) {
    assert(GROUP * group < spans->count);
    unsigned end = GROUP * (group + 1);
    return end < spans->count ? end : spans->count;
}

static Spans groups_of(const Spans *spans) {
    Spans groups = {.count = (spans->count + GROUP - 1) / GROUP,
                    .size = GROUP * spans->size,
                    .width = spans->width};
    size_t count = groups.count;
    groups.generates = memory_zeroed(3 * count + 1, sizeof(Literal));
    groups.passes = groups.generates + count;
    groups.carry = groups.passes + count;
    groups.mark = memory_zeroed(2 * count + 1, sizeof(uint32_t));
    groups.giver = groups.mark + count;
    groups.carry[0] = spans->carry[0];
    groups.giver[0] = spans->giver[0];
    return groups;
}

static void join_groups(Netlist *netlist, const Spans *spans, Spans *groups, unsigned tier) {
    for (unsigned k = 0; k < groups->count; k++) {
        unsigned first = GROUP * k, last = group_end(spans, k) - 1;
        join(netlist, spans, first, last, &groups->generates[k], &groups->passes[k]);
        groups->mark[k] = mark(netlist, CORE_JOIN, spans, first, last, groups->generates[k],
                               groups->passes[k], CORE_NO_CELL);
        core_group(netlist->core, top_of(spans, last), first * spans->size, tier);
    }
}

/* The carry into each span of a group but the lowest. */
static void look_ahead(Netlist *netlist, const Spans *spans, unsigned lowest, unsigned end) {
    for (unsigned i = lowest + 1; i < end; i++) {
        Literal generates, passes;
        join(netlist, spans, lowest, i - 1, &generates, &passes);
        spans->carry[i] = columns_past(netlist, generates, passes, spans->carry[lowest],
                                       ROLE_HANDED_ON, i * spans->size);
        spans->giver[i] = mark(netlist, CORE_CARRY, spans, lowest, i - 1, spans->carry[i],
                               LITERAL_NONE, spans->giver[lowest]);
    }
}

/* The carry that enters each span, given the one that enters the lowest; and the one past the
 * highest. */
static void find_carries(Netlist *netlist, const Spans *spans, int level) {
    assert(spans->count > 0 && level > 0);
    Spans groups = groups_of(spans);
    netlist_enter(netlist, PART_LEVELS, level);
    join_groups(netlist, spans, &groups, (unsigned)level);
    if (groups.count > 1) {
        find_carries(netlist, &groups, level + 1);
    } else {
        groups.carry[1] = columns_past(netlist, groups.generates[0], groups.passes[0],
                                       groups.carry[0], ROLE_HANDED_ON, spans->width);
        groups.giver[1] = mark(netlist, CORE_CARRY, &groups, 0, 0, groups.carry[1], LITERAL_NONE,
                               groups.giver[0]);
    }
    netlist_enter(netlist, PART_LEVELS, level);
    for (unsigned k = 0; k < groups.count; k++) {
        unsigned lowest = GROUP * k;
        spans->carry[lowest] = groups.carry[k];
        spans->giver[lowest] = groups.giver[k];
        look_ahead(netlist, spans, lowest, group_end(spans, k));
    }
    spans->carry[spans->count] = groups.carry[groups.count];
    spans->giver[spans->count] = groups.giver[groups.count];
    memory_free(groups.generates);
    memory_free(groups.mark);
}

static void build(Netlist *netlist, Adder *adder) {
    Columns columns;
    columns_open(netlist, adder, &columns);
    Spans spans = {.count = columns.width,
                   .size = 1,
                   .width = columns.width,
                   .generates = columns.generates,
                   .passes = columns.passes,
                   .carry = columns.carry,
                   .mark = columns.column,
                   .giver = columns.giver};
    find_carries(netlist, &spans, 1);
    columns_close(netlist, adder, &columns);
}

const StructureMaker lookahead_structure = {.build = build};
