/* What the vectors make a unit do, seen from the model: gathered as the vectors are made, so that
 * the simulation has no part in it. For each operation: each flag at each level; in each column of
 * the adder, as the operation's definition sees it, a carry generated, killed, and passed on at
 * each level; and the longest way of a carry. What can occur at all is known too, so that what was
 * missed is told from what cannot be. */
#ifndef SUMWRIGHT_VECTORS_COVERAGE_H
#define SUMWRIGHT_VECTORS_COVERAGE_H

#include "model/model.h"
#include "vectors/vectors.h"

/* What a column does with the operands' bits x and y and the carry that arrives. */
#define COLUMN_EVENTS(ROW)                                                                         \
    ROW(GENERATES, "generates") /* both are 1: a carry leaves whatever arrives */                  \
    ROW(KILLS, "kills")         /* both are 0: none leaves */                                      \
    ROW(PASSES_1, "passes 1")   /* they differ, and a carry arrives and leaves */                  \
    ROW(PASSES_0, "passes 0")   /* they differ, and none does */

#define EVENT_ID(ID, name) COLUMN_##ID,
typedef enum { COLUMN_EVENTS(EVENT_ID) } ColumnEvent;
#undef EVENT_ID
#define COLUMN_EVENT_COUNT (0 COLUMN_EVENTS(ROW_ONE))

/* What happened: flags that had a level, columns in which an event was. */
typedef struct {
    uint64_t vectors;
    bool flag[FLAG_COUNT][2];        /* by level */
    Word column[COLUMN_EVENT_COUNT]; /* bit i: in column i */
    unsigned longest;                /* columns in a row that pass the carry on */
} CoverageEvents;

typedef struct {
    const Unit *unit;
    CoverageEvents seen[OP_COUNT];     /* by choice */
    CoverageEvents possible[OP_COUNT]; /* what some input makes the unit do */
    uint64_t nothing;                  /* vectors with nothing requested */
} Coverage;

/* Nothing seen so far; what is possible is worked out, from the model on every input of a unit of
 * at most 4 bits: from there on the width makes no difference but to column 0 and the others. The
 * unit must outlive the coverage. Free with free(). Out of memory ends the program with
 * STATUS_SURROUNDINGS. */
Coverage *coverage_new(const Unit *unit);

/* One more vector. */
void coverage_add(Coverage *coverage, const Vector *vector);

/* How much: operations, and nothing requested as one more where that can be; flags, of those the
 * unit has, at each level under each operation; events in columns under each operation; the longest
 * way of a carry under any operation. */
typedef struct {
    uint64_t operations, flags, columns;
    unsigned longest;
} CoverageSum;

/* What was seen, and what can occur. */
typedef struct {
    CoverageSum seen, possible;
} CoverageCount;
CoverageCount coverage_count(const Coverage *coverage);
CoverageCount coverage_count_choice(const Coverage *coverage, int choice);

const char *column_event_name(ColumnEvent event);

#endif
