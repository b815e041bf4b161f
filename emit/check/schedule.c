/* See schedule.h. */
#include "check/schedule.h"

#include "base/memory.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

enum { RESET_STEPS = 2, HOLDS = 8, BEFORE_RESET = 4 };

/* One more step after the cases. */
static void add(Schedule *schedule, size_t which, bool reset, bool enable) {
    size_t k = schedule->count - schedule->first - schedule->cases;
    assert(k < SCHEDULE_AFTER_MAX);
    schedule->after[k] = (Step){which, reset, enable};
    schedule->count++;
}

/* A vector and then a clock with the enable low and other operands, several times. */
static void add_holds(Schedule *schedule) {
    size_t cases = schedule->cases;
    for (size_t k = 0; k < HOLDS && cases > 0; k++) {
        size_t which = k * (cases / HOLDS);
        add(schedule, which, false, true);
        add(schedule, (which + cases / 2 + 1) % cases, false, false);
    }
    add(schedule, 0, false, true);
}

static void add_reset(Schedule *schedule) {
    size_t last = schedule->cases - 1;
    for (size_t k = 0; k < BEFORE_RESET; k++)
        add(schedule, k < last ? last - k : 0, false, true);
    for (size_t k = 0; k <= RESET_STEPS; k++)
        add(schedule, last, true, true);
}

void schedule_make(Schedule *schedule, const Mapping *mapping, const Cases *cases,
                   unsigned latency) {
    bool clocked = mapping->port[PIN_CLK] != NULL, reset = mapping->port[PIN_RST] != NULL;
    *schedule = (Schedule){.clocked = clocked, .cases = cases->count};
    schedule->first = clocked && reset ? RESET_STEPS : 0;
    schedule->count = schedule->first + cases->count;
    if (clocked) {
        schedule->latency = latency;
        for (size_t k = 0; k <= latency + SCHEDULE_LATE_MAX; k++)
            add(schedule, cases->count - 1, false, true);
    }
    schedule->tail = schedule->count;
    if (clocked && mapping->port[PIN_EN] != NULL)
        add_holds(schedule);
    if (clocked && reset)
        add_reset(schedule);
}

Step schedule_step(const Schedule *schedule, size_t k) {
    if (k < schedule->first)
        return (Step){0, true, true};
    k -= schedule->first;
    return k < schedule->cases ? (Step){k, false, true} : schedule->after[k - schedule->cases];
}

void schedule_mask(const Cases *cases, const Mapping *mapping, uint64_t *mask) {
    memset(mask, 0, cases->out_limbs * sizeof *mask);
    for (unsigned bit = 0; bit < cases->unit->width; bit++)
        mask[bit / 64] |= UINT64_C(1) << (bit % 64);
    for (unsigned flag = 0; flag < FLAG_COUNT; flag++) {
        unsigned bit = cases->unit->width + flag;
        if (mapping->port[PIN_FLAG + flag] != NULL)
            mask[bit / 64] |= UINT64_C(1) << (bit % 64);
    }
}

/* Are the samples of two steps alike in the bits that the design has? */
static bool alike(const Samples *samples, const uint64_t *mask, size_t one, size_t other) {
    for (unsigned limb = 0; limb < samples->limbs; limb++) {
        uint64_t value = samples->value[one * samples->limbs + limb] ^
                         samples->value[other * samples->limbs + limb];
        uint64_t unknown = samples->unknown[one * samples->limbs + limb] |
                           samples->unknown[other * samples->limbs + limb];
        if (((value | unknown) & mask[limb]) != 0)
            return false;
    }
    return true;
}

/* Result 0, zero 1, every other flag 0. */
static bool cleared(const Cases *cases, const Samples *samples, const uint64_t *mask, size_t at) {
    unsigned zero = cases->unit->width + FLAG_ZERO;
    for (unsigned limb = 0; limb < samples->limbs; limb++) {
        uint64_t right = zero / 64 == limb ? UINT64_C(1) << (zero % 64) : 0;
        uint64_t value = samples->value[at * samples->limbs + limb];
        uint64_t unknown = samples->unknown[at * samples->limbs + limb];
        if ((((value ^ right) | unknown) & mask[limb]) != 0)
            return false;
    }
    return true;
}

/* A reset that waits for the clock: when it begins, the outputs are those of the case before. */
static bool waits(const Schedule *schedule, const Cases *cases, const Samples *samples,
                  const uint64_t *mask, size_t at) {
    if (schedule->latency > BEFORE_RESET)
        return true; /* a clock with the enable low may be among those before */
    const uint64_t *right =
        cases->right + schedule_step(schedule, at - schedule->latency).which * cases->out_limbs;
    for (unsigned limb = 0; limb < samples->limbs; limb++) {
        uint64_t value = samples->value[at * samples->limbs + limb];
        uint64_t unknown = samples->unknown[at * samples->limbs + limb];
        if ((((value ^ right[limb]) | unknown) & mask[limb]) != 0)
            return false;
    }
    return true;
}

Tail schedule_tail(const Schedule *schedule, const Cases *cases, const Mapping *mapping,
                   const Samples *samples) {
    uint64_t *mask = memory_zeroed(cases->out_limbs, sizeof *mask);
    schedule_mask(cases, mapping, mask);
    bool async = cases->unit->reset == RESET_ASYNC;
    Tail tail = samples->moves ? TAIL_MOVES : TAIL_RIGHT;
    for (size_t k = schedule->tail; k + 1 < schedule->count && tail == TAIL_RIGHT; k++) {
        Step step = schedule_step(schedule, k);
        if (!step.enable && schedule->latency > 0 && !alike(samples, mask, k, k + 1))
            tail = TAIL_HOLD_WRONG;
        bool clear =
            cleared(cases, samples, mask, k + 1) && (!async || cleared(cases, samples, mask, k));
        bool begins = step.reset && !schedule_step(schedule, k - 1).reset;
        if (step.reset && schedule->latency > 0 && !clear)
            tail = TAIL_RESET_WRONG;
        else if (begins && !async && schedule->latency > 0 &&
                 !waits(schedule, cases, samples, mask, k))
            tail = TAIL_RESET_EARLY;
    }
    free(mask);
    return tail;
}
