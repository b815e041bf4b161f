/* The parts that a set of vectors is made of, and what they share; private to this folder.
 *
 * vectors.c calls the parts in the order of their declarations. A part sets the operands in
 * Generator.vector and sends it; false from a send is the caller's wish to stop, and is handed on
 * at once. */
#ifndef SUMWRIGHT_VECTORS_PARTS_H
#define SUMWRIGHT_VECTORS_PARTS_H

#include "vectors/vectors.h"

typedef struct {
    const Unit *unit;
    bool has_b;
    bool has_cin;
    VectorSink *sink;
    void *context;
    bool exhaustive; /* every input is sent, none twice */
    bool idle_cin;   /* the level of the cin pin for the next operation that does not read it */
    Vector vector;
    uint64_t sent[1 << (VECTORS_EXHAUSTIVE_BITS - 6)]; /* where exhaustive: a bit an input */
} Generator;

/* Sends the vector with the operands that it holds; b goes out as 0 where the unit has none. Where
 * every input is tried, one that has been sent is left out. */
bool part_send(Generator *generator, VectorReason reason, uint32_t control, bool cin);

/* The same, for one operation (an index into unit->choice): first_carry is what its adder is to be
 * given where the operation reads cin. Where it does not, the cin pin, if there is one, is 0 and 1
 * by turns, so that a design that reads it all the same is seen to. */
bool part_send_choice(Generator *generator, VectorReason reason, int choice, bool first_carry);

/* The same, with operands that give a result of a single one in this column, as far as saturation
 * lets it out. */
bool part_send_single_one(Generator *generator, VectorReason reason, int choice, unsigned column);

/* The same with three results that, with a result of 0, give each XOR of a tree over the result all
 * four levels of its inputs, and the parity pin both of its levels. They are 1 in two of three
 * interleaved sets of bits, so that each XOR of two sets is the third (common practice, no source).
 */
bool part_send_parities(Generator *generator, VectorReason reason, int choice);

bool part_compact(Generator *generator);
bool part_idle(Generator *generator);
bool part_corners(Generator *generator);
bool part_walks(Generator *generator);
bool part_chains(Generator *generator);
bool part_random(Generator *generator, const VectorPlan *plan);

/* The columns where walking bits stand and carry chains start and end. Every column in words of
 * at most POSITIONS_MAX bits. In wider words the two sides of each boundary at a power of two,
 * 2^k - 1 and 2^k, and the two columns at each end: 0, 1, 2, 3, 4, 7, 8, 15, 16 ... n-2, n-1.
 * Ascending, none twice. */
enum { POSITIONS_MAX = 64 };
typedef struct {
    unsigned count;
    unsigned at[POSITIONS_MAX];
} Positions;
void positions_of(unsigned width, Positions *positions);

#endif
