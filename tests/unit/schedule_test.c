/* The steps that a design is given, and what is told of those after the cases. The outputs are worked
 * out here, step by step, for a design with a register behind its adder. */
#include "check/run/schedule.h"
#include "command_lines.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* What a register may do that is not right. */
typedef struct {
    bool ignores_enable;
    bool ignores_reset;
    bool clears_to_ones;
    bool resets_at_once;
} Register;

typedef struct {
    Cases cases;
    Mapping mapping;
    HeaderPort port;
    Schedule schedule;
    Samples samples;
} Run;

static Run *run_new(const char *options, unsigned latency) {
    Run *run = calloc(1, sizeof *run);
    const Unit *unit = &parsed(options)->unit;
    Problem problem = {STATUS_DONE, ""};
    VectorPlan plan = {.random = 50, .seed = 1};
    assert_true(cases_make(&run->cases, unit, &plan, &problem));
    for (int pin = 0; pin < PIN_COUNT; pin++)
        run->mapping.port[pin] = unit_has(unit, (Pin)pin) ? &run->port : NULL;
    schedule_make(&run->schedule, &run->mapping, &run->cases, latency);
    return run;
}

static void run_free(Run *run) {
    samples_free(&run->samples);
    cases_free(&run->cases);
    free(run);
}

static void set_cleared(const Cases *cases, uint64_t *out, bool ones) {
    unsigned zero = cases->unit->width + FLAG_ZERO;
    memset(out, ones ? 0xff : 0, cases->out_limbs * sizeof *out);
    out[zero / 64] |= UINT64_C(1) << (zero % 64);
}

/* One register: what a step shows was taken at the clock before. */
static Tail tail_of(Run *run, Register how) {
    const Cases *cases = &run->cases;
    size_t limbs = cases->out_limbs;
    uint64_t *out = calloc(limbs, sizeof *out);
    samples_free(&run->samples);
    run->samples = (Samples){.count = run->schedule.count, .limbs = cases->out_limbs};
    run->samples.value = calloc(run->schedule.count * limbs, sizeof *out);
    run->samples.unknown = calloc(run->schedule.count * limbs, sizeof *out);
    for (size_t k = 0; k < run->schedule.count; k++) {
        Step step = schedule_step(&run->schedule, k);
        if (how.resets_at_once && step.reset)
            set_cleared(cases, out, false);
        memcpy(run->samples.value + k * limbs, out, limbs * sizeof *out);
        if (step.reset && !how.ignores_reset)
            set_cleared(cases, out, how.clears_to_ones);
        else if (step.enable || how.ignores_enable)
            memcpy(out, cases->right + step.which * limbs, limbs * sizeof *out);
    }
    free(out);
    return schedule_tail(&run->schedule, cases, &run->mapping, &run->samples);
}

static void test_without_a_clock_a_step_is_a_case(void **state) {
    (void)state;
    Run *run = run_new("--width 5 --operations add,sub,adc", 0);
    assert_false(run->schedule.clocked);
    assert_int_equal(run->schedule.count, run->cases.count);
    for (size_t k = 0; k < run->schedule.count; k++) {
        assert_int_equal(schedule_step(&run->schedule, k).which, k);
        assert_int_equal(schedule_sample(&run->schedule, k, 0), k);
    }
    run->samples.moves = true;
    assert_int_equal(schedule_tail(&run->schedule, &run->cases, &run->mapping, &run->samples),
                     TAIL_STALE);
    run_free(run);
}

static void test_with_one_the_cases_stand_between_resets(void **state) {
    (void)state;
    Run *run = run_new("--width 5 --registers output --reset sync --enable", 1);
    const Schedule *schedule = &run->schedule;
    assert_true(schedule->clocked && schedule->first > 0);
    for (size_t k = 0; k < schedule->first; k++)
        assert_true(schedule_step(schedule, k).reset);
    for (size_t k = 0; k < schedule->cases; k++) {
        Step step = schedule_step(schedule, schedule->first + k);
        assert_true(step.which == k && step.enable && !step.reset);
        assert_int_equal(schedule_sample(schedule, k, 2), schedule->first + k + 3);
    }
    assert_true(schedule->first + schedule->cases + SCHEDULE_LATE_MAX < schedule->tail);
    bool held = false, reset = false;
    for (size_t k = schedule->tail; k < schedule->count; k++) {
        Step step = schedule_step(schedule, k);
        held = held || (!step.enable && !step.reset);
        reset = reset || step.reset;
    }
    assert_true(held && reset && schedule->resets > schedule->tail);
    run_free(run);
}

static void test_what_the_tail_tells(void **state) {
    (void)state;
    Run *run = run_new("--width 5 --registers output --reset sync --enable", 1);
    assert_int_equal(tail_of(run, (Register){0}), TAIL_RIGHT);
    assert_int_equal(tail_of(run, (Register){.ignores_enable = true}), TAIL_HOLD_WRONG);
    assert_int_equal(tail_of(run, (Register){.ignores_reset = true}), TAIL_RESET_WRONG);
    assert_int_equal(tail_of(run, (Register){.clears_to_ones = true}), TAIL_RESET_WRONG);
    assert_int_equal(tail_of(run, (Register){.resets_at_once = true}), TAIL_RESET_EARLY);
    run_free(run);
    run = run_new("--width 5 --registers output --reset async", 1);
    assert_int_equal(tail_of(run, (Register){.resets_at_once = true}), TAIL_RIGHT);
    assert_int_equal(tail_of(run, (Register){0}), TAIL_RESET_WRONG);
    run_free(run);
}

static void test_the_mask_is_what_the_design_has(void **state) {
    (void)state;
    Run *run = run_new("--width 62 --operations add --flags carry,zero", 0);
    uint64_t mask[2] = {0};
    assert_int_equal(run->cases.out_limbs, 2);
    schedule_mask(&run->cases, &run->mapping, mask);
    for (unsigned bit = 0; bit < 62 + FLAG_COUNT; bit++) {
        bool has = bit < 62 || bit == 62 + FLAG_CARRY || bit == 62 + FLAG_ZERO;
        assert_int_equal(packed_bit(mask, bit), has);
    }
    run_free(run);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_without_a_clock_a_step_is_a_case),
        cmocka_unit_test(test_with_one_the_cases_stand_between_resets),
        cmocka_unit_test(test_what_the_tail_tells),
        cmocka_unit_test(test_the_mask_is_what_the_design_has),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
