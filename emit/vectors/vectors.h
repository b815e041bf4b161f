/* Which operands to try, and why each is there.
 *
 * First a compact set that catches most of what can go wrong in one place. Then, when all input
 * bits together are at most VECTORS_EXHAUSTIVE_BITS, or what the plan says, every other input. Otherwise: corner values of
 * both operands crossed with every operation and carry-in, walking ones and zeros, carry chains,
 * then random words biased to long carries (docs/vectors.md). */
#ifndef SUMWRIGHT_VECTORS_VECTORS_H
#define SUMWRIGHT_VECTORS_VECTORS_H

#include "model/word.h"
#include "unit/unit.h"

enum { VECTORS_EXHAUSTIVE_BITS = 17, VECTORS_EXHAUSTIVE_BITS_MAX = 20 };

/* Why a vector is there: ROW(ID, a few words for tables and file headers), in the order of the
 * file. */
#define VECTOR_REASONS(ROW)                                                                        \
    ROW(COMPACT, "compact set")                  /* few that catch much */                         \
    ROW(EVERY, "every other input")              /* every other input there is */                  \
    ROW(IDLE, "nothing requested")               /* nothing requested, unused codes */             \
    ROW(CORNER, "corner values crossed")         /* of both operands */                            \
    ROW(WALK, "walking bits and index patterns") /* ones, zeros; what tells two bits apart */      \
    ROW(CHAIN, "carry chains") /* a carry generated at i, propagated to j, stopped */              \
    ROW(RANDOM, "random")

#define REASON_ID(ID, name) VECTOR_##ID,
typedef enum { VECTOR_REASONS(REASON_ID) } VectorReason;
#undef REASON_ID
#define VECTOR_REASON_COUNT (0 VECTOR_REASONS(ROW_ONE))

typedef struct {
    VectorReason reason;
    uint32_t control; /* the level of the control pins, see unit_control_bits */
    bool cin;
    Word a, b; /* the unit's width each; b is 0 where the unit has no b */
} Vector;

typedef struct {
    uint64_t random; /* random vectors, where not every input is tried */
    uint64_t seed;
    unsigned
        exhaustive_bits; /* every input is tried up to so many, at most ..._MAX; 0: the usual */
} VectorPlan;

/* One call a vector, in an order that depends on the unit and the plan alone. After one that
 * returned false there is no other, and the run returns false. */
typedef bool VectorSink(void *context, const Vector *vector);
bool vectors_each(const Unit *unit, const VectorPlan *plan, VectorSink *sink, void *context);

typedef struct {
    bool exhaustive;
    uint64_t total;
    uint64_t by_reason[VECTOR_REASON_COUNT];
} VectorCount;
void vectors_count(const Unit *unit, const VectorPlan *plan, VectorCount *count);

const char *vector_reason_name(VectorReason reason);

#endif
