/* What the parts of a set of vectors share: the vector being made, and the way out for it. Private
 * to this folder. A part sets the operands in Generator.vector and sends it. */
#ifndef SUMWRIGHT_VECTORS_GENERATOR_H
#define SUMWRIGHT_VECTORS_GENERATOR_H

#include "vectors/vectors.h"

typedef struct {
    const Unit *unit;
    bool has_b;
    bool has_cin;
    VectorSink *sink;
    void *context;
    bool stopped;    /* the sink wants no more: what is sent from then on goes nowhere */
    bool exhaustive; /* every input is sent, none twice */
    bool idle_cin;   /* the level of the cin pin for the next operation that does not read it */
    Vector vector;
    uint64_t sent[1 << (VECTORS_EXHAUSTIVE_BITS_MAX - 6)]; /* where exhaustive: a bit an input */
} Generator;

/* The sink is called with the context. */
void generator_init(Generator *generator, const Unit *unit, const VectorPlan *plan,
                    VectorSink *sink, void *context);

/* Sends the vector with the operands that it holds; b goes out as 0 where the unit has none. Where
 * every input is tried, one that has been sent is left out. */
void generator_send(Generator *generator, VectorReason reason, uint32_t control, bool cin);

/* The same, for one operation (an index into unit->choice): first_carry is what its adder is to be
 * given where the operation reads cin. Where it does not, the cin pin, if there is one, is 0 and 1
 * by turns, so that a design that reads it all the same is seen to. */
void generator_send_choice(Generator *generator, VectorReason reason, int choice, bool first_carry);

Operation generator_operation(const Generator *generator, int choice);

#endif
