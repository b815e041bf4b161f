/* Carry lookahead: groups of four columns say whether they make a carry and whether they pass one
 * on, groups of four groups say the same of theirs, and so on; the carries then come back down.
 * Each is the sum of products of the textbook, "made here, or made there and passed on all the
 * way". A. Weinberger, J. L. Smith, "A logic for high-speed addition", National Bureau of Standards
 * Circular 591, 1958 (from memory). */
#include "base/memory.h"
#include "gates/columns.h"

#include <stdlib.h>

enum { GROUP = 4 };

/* Neighbouring spans of columns, lowest first, and the carry that enters each. */
typedef struct {
    unsigned count;
    unsigned size;  /* columns in each; the highest may have fewer, */
    unsigned width; /* of so many altogether */
    Literal *generates;
    Literal *passes;
    Literal *carry;
} Spans;

static unsigned top_of(const Spans *spans, unsigned span) {
    unsigned end = (span + 1) * spans->size;
    return (end < spans->width ? end : spans->width) - 1;
}

/* All of spans first ... last as one. */
static void join(Netlist *netlist, const Spans *spans, unsigned first, unsigned last,
                 Literal *generates, Literal *passes) {
    int top = (int)top_of(spans, last);
    *generates = spans->generates[last];
    *passes = spans->passes[last];
    for (unsigned k = last; k-- > first;) {
        Literal product = netlist_and(netlist, *passes, spans->generates[k]);
        int bottom = (int)(k * spans->size);
        netlist_name_span(netlist, product, "handed_on", top, bottom);
        *generates = netlist_or(netlist, *generates, product);
        netlist_name_span(netlist, *generates, "generates", top, bottom);
        *passes = netlist_and(netlist, *passes, spans->passes[k]);
        netlist_name_span(netlist, *passes, "passes", top, bottom);
    }
}

static unsigned group_end(const Spans *spans, unsigned group) {
    unsigned end = GROUP * (group + 1);
    return end < spans->count ? end : spans->count;
}

/* The carry that enters each span, given the one that enters the lowest; and the one past the
 * highest. */
static Literal find_carries(Netlist *netlist, const Spans *spans, Literal first, int level) {
    Spans groups = {.count = (spans->count + GROUP - 1) / GROUP,
                    .size = GROUP * spans->size,
                    .width = spans->width};
    groups.generates = memory_zeroed(3 * (size_t)groups.count, sizeof(Literal));
    groups.passes = groups.generates + groups.count;
    groups.carry = groups.passes + groups.count;
    netlist_enter(netlist, PART_LEVELS, level);
    for (unsigned k = 0; k < groups.count; k++)
        join(netlist, spans, GROUP * k, group_end(spans, k) - 1, &groups.generates[k],
             &groups.passes[k]);
    groups.carry[0] = first;
    Literal past = groups.count > 1 ? find_carries(netlist, &groups, first, level + 1)
                                    : columns_past(netlist, groups.generates[0], groups.passes[0],
                                                   first, "handed_on", spans->width);
    netlist_enter(netlist, PART_LEVELS, level);
    for (unsigned k = 0; k < groups.count; k++) {
        unsigned lowest = GROUP * k;
        spans->carry[lowest] = groups.carry[k];
        for (unsigned i = lowest + 1; i < group_end(spans, k); i++) {
            Literal generates, passes;
            join(netlist, spans, lowest, i - 1, &generates, &passes);
            spans->carry[i] = columns_past(netlist, generates, passes, groups.carry[k], "handed_on",
                                           i * spans->size);
        }
    }
    free(groups.generates);
    return past;
}

void lookahead_build(Netlist *netlist, Adder *adder) {
    Columns columns;
    columns_open(netlist, adder, &columns);
    Spans spans = {columns.width, 1, columns.width, columns.generates, columns.passes,
                   columns.carry};
    columns.carry[columns.width] = find_carries(netlist, &spans, columns.first, 1);
    columns_close(netlist, adder, &columns);
}
