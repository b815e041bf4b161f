/* Operands chosen by what they do to the carry, as the adder inside the unit sees it.
 *
 * Every operation gives one adder two words x and y and a first carry (model/adder.h). Each column
 * of the adder either propagates (x and y differ: the carry passes) or forces the carry to a level
 * (x = y = 1 generates a carry, x = y = 0 kills it). Columns says which, and what the operation
 * gives the adder turns that into a and b. */
#ifndef SUMWRIGHT_VECTORS_COLUMNS_H
#define SUMWRIGHT_VECTORS_COLUMNS_H

#include "model/adder.h"

typedef struct {
    Word propagate; /* 1: the column passes the carry on */
    Word level;     /* where it does not: the carry it forces. Other bits mean nothing */
    Word in_x;      /* where it does: 1, the column's one is in x; 0, it is in y */
} Columns;

/* The operands with which an operation's adder gets these columns.
 *
 * inc, dec, neg and pass read a only, and their y is a constant: their columns can propagate, or
 * force the one level that y has. They take propagate and leave the level; b becomes in_x, so
 * that a design that reads b all the same is seen to. */
void columns_to_operands(Operation operation, const Columns *columns, Word *a, Word *b);

#endif
