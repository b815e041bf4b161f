/* See schedule.h. */
#include "check/run/schedule.h"

#include "base/memory.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

enum { RESET_STEPS = 2, HOLDS = 8, RESETS = 8 };

/* Result 0, zero 1, every other flag 0: this limb of it. */
static uint64_t cleared_limb(const Cases *cases, unsigned limb) {
    unsigned zero = cases->unit->width + FLAG_ZERO;
    return zero / 64 == limb ? UINT64_C(1) << (zero % 64) : 0;
}

static const uint64_t *right_of(const Cases *cases, size_t which) {
    return cases->right + which * cases->out_limbs;
}

/* ---- which cases come after the others ----------------------------------------------------- */

/* Bits of the outputs that have not been told apart yet. */
typedef struct {
    const Cases *cases;
    uint64_t *left;
} BitsToTell;

static unsigned ones(uint64_t limb) {
    unsigned count = 0;
    for (; limb != 0; limb &= limb - 1)
        count++;
    return count;
}

/* The case whose outputs differ from these in the most bits that are left, which are left no more;
 * other: a case, or SIZE_MAX for the cleared outputs. */
static size_t choose(BitsToTell *bits, size_t other) {
    const Cases *cases = bits->cases;
    size_t best = 0;
    unsigned most = 0;
    for (size_t k = 0; k < cases->count; k++) {
        unsigned count = 0;
        for (unsigned limb = 0; limb < cases->out_limbs; limb++) {
            uint64_t from =
                other == SIZE_MAX ? cleared_limb(cases, limb) : right_of(cases, other)[limb];
            count += ones((right_of(cases, k)[limb] ^ from) & bits->left[limb]);
        }
        best = count > most ? k : best;
        most = count > most ? count : most;
    }
    for (unsigned limb = 0; limb < cases->out_limbs; limb++) {
        uint64_t from =
            other == SIZE_MAX ? cleared_limb(cases, limb) : right_of(cases, other)[limb];
        bits->left[limb] &= ~(right_of(cases, best)[limb] ^ from);
    }
    return best;
}

static BitsToTell bits_to_tell(const Cases *cases) {
    BitsToTell bits = {cases, memory_zeroed(cases->out_limbs, sizeof(uint64_t))};
    memset(bits.left, 0xff, cases->out_limbs * sizeof(uint64_t));
    return bits;
}

/* One more step after the cases. */
static void add(Schedule *schedule, size_t which, bool reset, bool enable) {
    size_t k = schedule->count - schedule->first - schedule->cases;
    assert(k < SCHEDULE_AFTER_MAX);
    schedule->after[k] = (Step){which, reset, enable};
    schedule->count++;
}

/* A vector and then a clock with the enable low and other operands, several times, so that every
 * output should change and must not. */
static void add_holds(Schedule *schedule, const Cases *cases) {
    BitsToTell bits = bits_to_tell(cases);
    for (size_t k = 0; k < HOLDS; k++) {
        size_t which = k * (cases->count / HOLDS);
        add(schedule, which, false, true);
        add(schedule, choose(&bits, which), false, false);
    }
    for (unsigned k = 0; k <= schedule->latency; k++)
        add(schedule, 0, false, true);
    free(bits.left);
}

/* A vector until it is seen, and then a reset, several times, so that every output must change; the
 * reset must not wait for the enable. */
static void add_resets(Schedule *schedule, const Cases *cases) {
    BitsToTell bits = bits_to_tell(cases);
    for (size_t k = 0; k < RESETS; k++) {
        size_t which = choose(&bits, SIZE_MAX);
        for (unsigned s = 0; s <= schedule->latency; s++)
            add(schedule, which, false, true);
        for (unsigned s = 0; s <= RESET_STEPS; s++)
            add(schedule, which, true, false);
    }
    free(bits.left);
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
        add_holds(schedule, cases);
    schedule->resets = schedule->count;
    if (clocked && reset)
        add_resets(schedule, cases);
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

/* ---- what must come after the cases -------------------------------------------------------- */

/* What a stage of a pipeline holds: a case, or one of these. */
#define STAGE_UNKNOWN SIZE_MAX
#define STAGE_CLEARED (SIZE_MAX - 1)

/* The rising edge of the clock; the outputs are the last stage. */
static void give_clock(size_t *stage, unsigned latency, Step step) {
    if (step.reset) {
        for (unsigned s = 0; s < latency; s++)
            stage[s] = STAGE_UNKNOWN; /* what it does with cleared operands is nobody's business */
        stage[latency - 1] = STAGE_CLEARED;
    } else if (step.enable) {
        memmove(stage + 1, stage, (latency - 1) * sizeof *stage);
        stage[0] = step.which;
    }
}

static bool shows(const Samples *samples, const Cases *cases, const uint64_t *mask, size_t at,
                  size_t stage) {
    for (unsigned limb = 0; limb < samples->limbs && stage != STAGE_UNKNOWN; limb++) {
        uint64_t right =
            stage == STAGE_CLEARED ? cleared_limb(cases, limb) : right_of(cases, stage)[limb];
        uint64_t value = samples->value[at * samples->limbs + limb];
        uint64_t unknown = samples->unknown[at * samples->limbs + limb];
        if ((((value ^ right) | unknown) & mask[limb]) != 0)
            return false;
    }
    return true;
}

/* What it means when step k does not show what it should. */
static Tail tail_of(const Schedule *schedule, size_t k, bool async) {
    if (k < schedule->resets)
        return TAIL_HOLD_WRONG;
    bool begins = schedule_step(schedule, k).reset && !schedule_step(schedule, k - 1).reset;
    return begins && !async ? TAIL_RESET_EARLY : TAIL_RESET_WRONG;
}

Tail schedule_tail(const Schedule *schedule, const Cases *cases, const Mapping *mapping,
                   const Samples *samples) {
    unsigned latency = schedule->latency;
    bool async = cases->unit->reset == RESET_ASYNC;
    Tail tail = TAIL_RIGHT;
    if (samples->moves)
        tail = schedule->clocked ? TAIL_MOVES : TAIL_STALE;
    if (latency == 0)
        return tail;
    size_t *stage = memory_zeroed(latency, sizeof *stage);
    for (unsigned s = 0; s < latency; s++)
        stage[s] = STAGE_UNKNOWN;
    uint64_t *mask = memory_zeroed(cases->out_limbs, sizeof *mask);
    schedule_mask(cases, mapping, mask);
    for (size_t k = 0; k < schedule->count && tail == TAIL_RIGHT; k++) {
        Step step = schedule_step(schedule, k);
        size_t due = step.reset && async ? STAGE_CLEARED : stage[latency - 1];
        if (k >= schedule->tail && !shows(samples, cases, mask, k, due))
            tail = tail_of(schedule, k, async);
        give_clock(stage, latency, step);
    }
    free(mask);
    free(stage);
    return tail;
}
