/* Carry structures: how the carry of each column is found. Each is one file behind one table. */
#ifndef SUMWRIGHT_GATES_STRUCTURES_STRUCTURE_H
#define SUMWRIGHT_GATES_STRUCTURES_STRUCTURE_H

#include "gates/netlist/core.h"

/* The circuits that STRUCTURE_FEWEST chooses from: the first for gates of any kind, all of them for
 * gates of one kind (see fewest_one_kind.c). */
typedef enum { FORM_ANY_KIND, FORM_CARRIES, FORM_CARRIES_FOR_NORS, FORM_CHAIN, FORM_COUNT } Form;

/* The adder core, column by column: x + y + first, or the same in borrow form (see operands.h).
 * The structure fills sum[0 ... width - 1] and carry[0 ... width]: carry[i] enters column i,
 * carry[0] is the first one, carry[width] leaves the last column. What nobody reads is dropped
 * later.
 *
 * A structure that works in borrow form leaves its chain in carry[] and says so in turned. */
typedef struct {
    unsigned width; /* columns, 1 or more */
    unsigned depth; /* STRUCTURE_DEPTH: levels of prefix cells */
    Form form;      /* STRUCTURE_FEWEST */
    const Literal *x;
    const Literal *y;
    Literal first;
    const Literal *a; /* borrow form */
    const Literal *b;
    Literal turn_a;
    Literal turn_b;
    Literal chain;
    Literal subtracting;
    bool carry_leaves;  /* carry[width] is read as a carry (1 = no borrow), not as a chain */
    bool overflow_read; /* something reads whether the two last carries differ */
    Literal *sum;
    Literal *carry;
    Literal turned;   /* carry[i] XOR turned is the carry: LITERAL_0 unless set */
    Literal leaving;  /* the carry out of the last column where the structure has it beside the
                         chain, else LITERAL_NONE */
    Literal overflow; /* the two last carries differ, where the structure has a gate that says so,
                         else LITERAL_NONE */
} Adder;

/* What a structure is made by: its own gates, or the prefix network that finds its carries (see
 * prefix.h). depth: levels of cells that the network may have, for one that chooses. */
struct Prefix;
typedef void StructureBuild(Netlist *netlist, Adder *adder);
typedef void PrefixMake(struct Prefix *prefix, unsigned depth);

typedef struct {
    StructureBuild *build; /* one of the two, */
    PrefixMake *make;      /* the other NULL */
} StructureMaker;

/* One for each row of STRUCTURES (unit/structures.h), defined in the structure's own file. */
#define MAKER_ROW(ID, id, ...) extern const StructureMaker id##_structure;
STRUCTURES(MAKER_ROW)
#undef MAKER_ROW

/* Adds the gates of a structure. */
void structure_build(Structure structure, Netlist *netlist, Adder *adder);

/* The columns of a ripple chain from one on, whose carry[from] is known. */
void ripple_from(Netlist *netlist, Adder *adder, unsigned from);

/* Those of STRUCTURE_FEWEST that are for gates of one kind. */
void fewest_build_form(Netlist *netlist, Adder *adder);

#endif
