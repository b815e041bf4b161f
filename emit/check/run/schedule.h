/* What a design is given, step by step. A step sets the pins, lets them settle, looks at the
 * outputs, and then, in a design with a clock, gives one clock pulse. While the clock is high and
 * as it falls, the pins have the operands of the step before: a design that takes them then shows
 * as late.
 *
 * Without a clock, step k is case k. With one: a reset, if there is that pin; the cases, one a
 * step, so that case k is seen `latency` steps later; some steps more, so that a late design is
 * seen to the end; and then, where the pins are there, steps with the enable low and a reset, as
 * the emitted testbench has them amidst its vectors. */
#ifndef SUMWRIGHT_CHECK_RUN_SCHEDULE_H
#define SUMWRIGHT_CHECK_RUN_SCHEDULE_H

#include "check/read/ports.h"
#include "check/run/cases.h"

enum { SCHEDULE_LATE_MAX = 8 }; /* clocks that a design may be late and be found so */

typedef struct {
    size_t which; /* the case at the pins */
    bool reset;
    bool enable;
} Step;

enum { SCHEDULE_AFTER_MAX = 800 }; /* steps after the cases, at most */

typedef struct {
    bool clocked;
    unsigned latency; /* clocks from operands to result */
    size_t count;
    size_t cases;
    size_t first;  /* the step of case 0; those before it reset */
    size_t tail;   /* the first step after the cases and what follows for late designs */
    size_t resets; /* the first step of those for the reset */
    Step after[SCHEDULE_AFTER_MAX]; /* the steps after the last case */
} Schedule;

/* latency: at most OPTIONS_LATENCY_MAX. */
void schedule_make(Schedule *schedule, const Mapping *mapping, const Cases *cases,
                   unsigned latency);
Step schedule_step(const Schedule *schedule, size_t k);

/* The step where case k is seen by a design that is `late` clocks late (early: less than 0). */
static inline size_t schedule_sample(const Schedule *schedule, size_t k, int late) {
    return (size_t)((int64_t)(schedule->first + k + schedule->latency) + late);
}

/* What the tail shows, or the falling edges of the clock (TAIL_MOVES), or, without a clock, inputs
 * that change alone (TAIL_STALE). */
typedef enum {
    TAIL_RIGHT,
    TAIL_MOVES,
    TAIL_STALE,
    TAIL_HOLD_WRONG,
    TAIL_RESET_WRONG,
    TAIL_RESET_EARLY
} Tail;
Tail schedule_tail(const Schedule *schedule, const Cases *cases, const Mapping *mapping,
                   const Samples *samples);

/* The bits of a packed word that this design has. mask has cases->out_limbs limbs. */
void schedule_mask(const Cases *cases, const Mapping *mapping, uint64_t *mask);

#endif
