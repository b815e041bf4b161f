/* The ways to make of NANDs what is read of a pair of signals (see pairs.h).
 *
 * Ways 0 ... 3 go through the product of that number: its inverse is made first. The two products
 * with one operand the other way round come from that and the operand as it is, for x AND NOT (x
 * AND y) is x AND NOT y; those two make the XOR. The fourth product, which has neither operand as
 * the first, needs one of them inverted and the gate that has the other so.
 *
 * Apart, every product comes from its own operands, and the XOR, or its inverse, from two of
 * them. */
#ifndef SUMWRIGHT_GATES_MAPPING_WAY_H
#define SUMWRIGHT_GATES_MAPPING_WAY_H

#include "gates/mapping/pairs.h"

enum { WAY_APART = 4, WAY_APART_INVERSE = 5, WAYS = 6 };

typedef unsigned Set; /* of products or terms of a pair, one bit each */

/* The terms of a pair's operands. */
enum { TERM_X = 1, TERM_NOT_X = 2, TERM_Y = 4, TERM_NOT_Y = 8 };

static inline Set way_term(int side, bool inverted) {
    return (Set)(side == 0 ? TERM_X : TERM_Y) << (inverted ? 1 : 0);
}

/* What is read of a pair. */
typedef struct {
    Set inverses;   /* of these products: what NANDs give */
    Set plain;      /* these products themselves: an inverter each */
    bool differ[2]; /* the XOR, its inverse */
} Wanted;

/* What making it takes. */
typedef struct {
    Set made;       /* products whose inverses are made */
    Set terms;      /* of the operands that they read */
    unsigned gates; /* NANDs, inverters behind them included */
} Effort;

/* through_y: the fourth product is made from the inverse of y, not of x. */
Effort way_effort(const Wanted *wanted, int way, bool through_y);

/* The polarity in which the XOR comes without an inverter: true for its inverse. */
bool way_inverts(int way);

/* The product that a pair's gates are seen from: x AND y for those that go through it. */
int way_base(int way);

#endif
