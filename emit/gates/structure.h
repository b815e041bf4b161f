/* Carry structures: how the carry of each column is found. Each is one file behind one table. */
#ifndef SUMWRIGHT_GATES_STRUCTURE_H
#define SUMWRIGHT_GATES_STRUCTURE_H

#include "gates/netlist.h"

/* The adder core: x + y + first, column by column. The structure fills sum[0 ... width - 1] and
 * carry[0 ... width]: carry[i] enters column i, carry[0] is first, carry[width] leaves the last
 * column. What nobody reads is dropped later. */
typedef struct {
    unsigned width; /* columns, 1 or more */
    const Literal *x;
    const Literal *y;
    Literal first;
    Literal *sum;
    Literal *carry;
} Adder;

typedef void StructureBuild(Netlist *netlist, Adder *adder);

/* The builder of a structure. */
StructureBuild *structure_build(Structure structure);

StructureBuild ripple_build;

#endif
