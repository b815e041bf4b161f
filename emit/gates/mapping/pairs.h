/* A netlist seen as pairs: all gates that join the same two signals, side by side. It is the form
 * in which map.c finds what NAND gates share: an XOR made of four of them has in it three of the
 * pair's four products.
 *
 * A signal is the constant 0, an input, or one of five functions of a pair of signals: the four
 * products (a AND, with either operand inverted or not) and the XOR. A term is a signal, inverted
 * or not: its number times two, plus one where inverted; terms 0 and 1 are the constants. The same
 * function of the same two signals is one signal however often the netlist has it. */
#ifndef SUMWRIGHT_GATES_MAPPING_PAIRS_H
#define SUMWRIGHT_GATES_MAPPING_PAIRS_H

#include "gates/netlist/netlist.h"

#include <assert.h>

typedef uint32_t Term;

enum {
    SHAPE_INVERT_X = 1, /* bits of a product's number: its first operand is inverted */
    SHAPE_INVERT_Y = 2, /* its second */
    SHAPE_PRODUCTS = 4,
    SHAPE_XOR = 4, /* beyond the products */
    SHAPES = 5
};

/* A selection, h ? t : s, is NOT (NOT product(h, t) AND NOT product(not h, s)); where the data are
 * inverted the same gates give its inverse. other[] holds the two products with their data
 * inverted. */
typedef struct {
    uint32_t operand[2]; /* signals x and y */
    bool selects;        /* the product of both inverses is such a selection */
    uint32_t other[2];   /* then: signals */
} Pair;

typedef struct {
    const Netlist *netlist;
    uint32_t inputs; /* signals 1 ... inputs are the netlist's nodes of the same number */
    Pair *pair;      /* its operands are inputs or signals of pairs before it */
    uint32_t count;
    Term *term;       /* of each node of the netlist */
    uint32_t *source; /* of each signal: the first node that has it, 0 for none */
    uint32_t *place;  /* pairs by their operands: a hash table of pair numbers plus one */
    uint32_t places;  /* a power of two */
} Pairs;

static inline uint32_t pairs_signals(const Pairs *pairs) {
    return 1 + pairs->inputs + SHAPES * pairs->count;
}

static inline uint32_t pairs_signal(const Pairs *pairs, uint32_t pair, int shape) {
    assert(pair < pairs->count && shape >= 0 && shape < SHAPES);
    return 1 + pairs->inputs + SHAPES * pair + (uint32_t)shape;
}

static inline Term pairs_term(uint32_t signal, bool inverted) {
    return 2 * signal + (inverted ? 1 : 0);
}

static inline bool pairs_is_input(const Pairs *pairs, uint32_t signal) {
    return signal <= pairs->inputs;
}

/* The pair and shape of a signal that is no input and no constant. */
static inline uint32_t pairs_pair(const Pairs *pairs, uint32_t signal) {
    assert(!pairs_is_input(pairs, signal) && signal < pairs_signals(pairs));
    return (signal - 1 - pairs->inputs) / SHAPES;
}

static inline int pairs_shape(const Pairs *pairs, uint32_t signal) {
    assert(!pairs_is_input(pairs, signal));
    return (int)((signal - 1 - pairs->inputs) % SHAPES);
}

/* The pairs of a finished netlist, which must outlive them. With dual, those of its dual: AND for
 * OR, XOR for XNOR and the reverse. Linear in gates. Free with pairs_free. */
void pairs_find(const Netlist *netlist, bool dual, Pairs *pairs);
void pairs_free(Pairs *pairs);

#endif
