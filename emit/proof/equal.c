/* See equal.h. */
#include "proof/equal.h"

#include "proof/unroll.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

enum { LATENCY_MAX = 8, IDLE_MAX = 2 };

/* Limits of a comparison: somebody's circuit may be ordered less well than ours. */
static const DiagramLimits limits = {1u << 22, UINT64_C(1) << 26};

typedef struct {
    const Unit *unit;
    const Aiger *aiger;
    unsigned latency;
    bool reset_low;
    Equality *equality;
} Asked;

/* ---- runs ----------------------------------------------------------------------------------- */

static void frame(Run *run, Frame frame, Watch watch) {
    assert(run->count < UNROLL_FRAMES_MAX);
    run->frame[run->count] = frame;
    run->watch[run->count++] = watch;
}

/* The clock low and then high, with the same at the other pins. */
static void clock_once(Run *run, FrameLevel enable, unsigned data, Watch after) {
    frame(run, (Frame){.clock = false, .enable = enable, .data = data}, WATCH_NOTHING);
    frame(run, (Frame){.clock = true, .enable = enable, .data = data}, after);
}

/* The operands' clock, and as many with other operands as it takes until the result shows, each
 * after so many idle ones. It stays when the clock falls. */
static void run_result(unsigned latency, unsigned idle, Run *run) {
    unsigned data = 0;
    for (unsigned k = 0; k < latency; k++) {
        for (unsigned wait = 0; wait < idle && k > 0; wait++)
            clock_once(run, LEVEL_0, ++data, WATCH_NOTHING);
        clock_once(run, LEVEL_1, k == 0 ? 0 : ++data,
                   k + 1 == latency ? WATCH_DEFINITION : WATCH_NOTHING);
    }
    frame(run, (Frame){.enable = LEVEL_ANY, .data = latency == 0 ? 0 : data + 1}, WATCH_DEFINITION);
}

static void run_hold(Run *run) {
    clock_once(run, LEVEL_0, 1, WATCH_SAME);
    frame(run, (Frame){.enable = LEVEL_ANY, .data = 2}, WATCH_SAME);
}

static void run_reset(bool async, Run *run) {
    frame(run, (Frame){.enable = LEVEL_ANY, .data = 1}, WATCH_NOTHING);
    frame(run, (Frame){.reset = true, .enable = LEVEL_ANY, .data = 1},
          async ? WATCH_CLEARED : WATCH_SAME);
    frame(run, (Frame){.clock = true, .reset = true, .enable = LEVEL_ANY, .data = 1},
          WATCH_CLEARED);
    frame(run, (Frame){.enable = LEVEL_ANY, .data = 2}, WATCH_CLEARED);
}

/* ---- one comparison ------------------------------------------------------------------------- */

static bool tell(const Asked *asked, const char *what, const Proof *proof) {
    Equality *equality = asked->equality;
    if (proof->state == PROOF_EQUAL)
        return true;
    equality->state = proof->state;
    if (proof->state == PROOF_OPEN) {
        snprintf(equality->text, sizeof equality->text,
                 "%s: the diagrams of %u output%s grow past %u nodes or %llu steps", what,
                 proof->open, proof->open == 1 ? "" : "s", limits.nodes,
                 (unsigned long long)limits.steps);
        return false;
    }
    bool clocked = unit_has(asked->unit, PIN_CLK);
    snprintf(
        equality->text, sizeof equality->text, "%s: read as gates it differs, at least %s", what,
        clocked ? "from some state of its registers" : "where it holds a level or leaves it open");
    snprintf(equality->share, sizeof equality->share, "%s", proof->share);
    equality->example = proof->example;
    return false;
}

/* Is what the run watches right? The sentence says what it is about. */
static bool holds(const Asked *asked, const char *what, const Run *run) {
    Proof proof;
    Netlist netlist;
    unroll(asked->unit, asked->aiger, run, &netlist);
    prove(asked->unit, &netlist, limits, &proof);
    asked->equality->shown =
        proof.state == PROOF_DIFFERENT && netlist.outputs[proof.output].pin != PROVE_NONE;
    netlist_free(&netlist);
    return tell(asked, what, &proof);
}

static bool results_hold(const Asked *asked) {
    unsigned idle_most = unit_has(asked->unit, PIN_EN) && asked->latency > 1 ? IDLE_MAX : 0;
    for (unsigned idle = 0; idle <= idle_most; idle++) {
        Run run = {.reset_low = asked->reset_low};
        run_result(asked->latency, idle, &run);
        if (!holds(asked, idle == 0 ? "its outputs" : "with the enable low between two clocks",
                   &run))
            return false;
    }
    return true;
}

static bool clocked_holds(const Asked *asked) {
    const Unit *unit = asked->unit;
    if (!results_hold(asked))
        return false;
    if (unit_has(unit, PIN_EN)) {
        Run run = {.reset_low = asked->reset_low};
        run_hold(&run);
        if (!holds(asked, "with the enable low", &run))
            return false;
    }
    if (unit_has(unit, PIN_RST)) {
        Run run = {.reset_low = asked->reset_low};
        run_reset(unit->reset == RESET_ASYNC, &run);
        return holds(asked, "in reset", &run);
    }
    return true;
}

/* ---- the whole ------------------------------------------------------------------------------ */

static void say_equal(const Asked *asked) {
    const Unit *unit = asked->unit;
    char inputs[SHARE_BYTES], after[64] = "";
    prove_inputs_text(unit, inputs);
    if (unit_has(unit, PIN_CLK))
        snprintf(after, sizeof after, ", %u clock%s later, from any state", asked->latency,
                 asked->latency == 1 ? "" : "s");
    snprintf(asked->equality->text, EQUAL_TEXT_BYTES, "equal to the unit for all %.60s inputs%s%s",
             inputs, unit->control == CONTROL_ONE_HOT ? " with one request or none" : "", after);
}

void equal_find(const Unit *unit, const Aiger *aiger, unsigned latency, bool reset_low,
                Equality *equality) {
    *equality = (Equality){.state = PROOF_EQUAL};
    Asked asked = {unit, aiger, latency, reset_low, equality};
    Run run = {.reset_low = reset_low};
    if (latency > LATENCY_MAX) {
        equality->state = PROOF_OPEN;
        snprintf(equality->text, sizeof equality->text,
                 "a result %u clocks after its operands is more than the proof follows", latency);
        return;
    }
    frame(&run, (Frame){.data = 0}, WATCH_DEFINITION);
    if (unit_has(unit, PIN_CLK) ? clocked_holds(&asked) : holds(&asked, "its outputs", &run))
        say_equal(&asked);
}
