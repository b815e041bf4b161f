/* What every structure but the ripple chain begins and ends with: for each column whether it makes
 * a carry and whether it passes one on, and the sums once the carries are known.
 *
 * The carries may be those of the adder turned upside down. x + y + first and its complement,
 * not x + not y + not first, have complementary sums and carries (the full adder is self-dual;
 * common practice, no source). Where y is b XOR first, as in the textbook's adder-subtractor, the
 * second form has the operands x XOR first and b, and nothing enters its first column: its carries
 * are carries in an addition and borrows in a subtraction. That spares a first carry that changes,
 * at no gate: the XOR moves from b to a. */
#ifndef SUMWRIGHT_GATES_STRUCTURES_COLUMNS_H
#define SUMWRIGHT_GATES_STRUCTURES_COLUMNS_H

#include "gates/structures/structure.h"

typedef struct {
    unsigned width;
    Literal first;      /* what enters column 0 */
    Literal turned;     /* 1 where carries are the adder's turned over */
    Role role;          /* what goes from column to column: a carry, a borrow, ... */
    Literal *generates; /* the column makes a carry, whatever enters it */
    Literal *passes;    /* the column lets a carry through */
    Literal *half;      /* its sum but for the carry */
    Literal *carry;     /* width + 1, for the structure to fill: carry[i] enters column i; carry[0]
                           is first */
    uint32_t *column;   /* of the record: each column's cell, */
    uint32_t *giver;    /* and width + 1, for the structure to fill: the cell that carry[i] is from;
                           giver[0] is that of first */
} Columns;

/* Adds the gates of the columns. Free with columns_close. */
void columns_open(Netlist *netlist, const Adder *adder, Columns *columns);

/* Adds the sums and hands the adder its carries; frees the columns. */
void columns_close(Netlist *netlist, Adder *adder, Columns *columns);

/* A carry past a stretch of columns: generated there, or passed on by it. role and column are those
 * of the gate that passes it on. */
Literal columns_past(Netlist *netlist, Literal generates, Literal passes, Literal carry, Role role,
                     unsigned column);

/* The columns by groups from the lowest up, of so many columns each as group_size says of a group
 * by its number, but for the last one, which ends with the word. Opens and closes the columns, and
 * has add_group find the carries into columns start + 1 ... end of a group. */
typedef unsigned GroupSize(unsigned width, unsigned group);
typedef void GroupAdd(Netlist *netlist, Columns *columns, unsigned start, unsigned end);
void columns_by_groups(Netlist *netlist, Adder *adder, GroupSize *group_size, GroupAdd *add_group);

/* Lookahead: so many neighbours make a group, at every level. */
enum { LOOKAHEAD_GROUP = 4 };

#endif
