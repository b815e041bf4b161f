/* See cases.h. */
#include "check/run/cases.h"

#include "base/memory.h"
#include "model/model.h"

#include <stdlib.h>
#include <string.h>

/* Of operands and outputs together; the simulator needs several times as much. */
#define CASES_LIMBS_MAX (UINT64_C(1) << 25)

static void pack(const Cases *cases, const Outcome *outcome, uint64_t *packed) {
    unsigned width = cases->unit->width;
    memcpy(packed, outcome->result.limb, cases->limbs * sizeof *packed);
    for (unsigned flag = 0; flag < FLAG_COUNT; flag++) {
        unsigned bit = width + flag;
        packed[bit / 64] |= (uint64_t)outcome->flag[flag] << (bit % 64);
    }
}

static bool take_case(void *context, const Vector *vector) {
    Cases *cases = context;
    size_t k = cases->count++;
    size_t bytes = cases->limbs * sizeof(uint64_t);
    memcpy(cases->a + k * cases->limbs, vector->a.limb, bytes);
    memcpy(cases->b + k * cases->limbs, vector->b.limb, bytes);
    cases->control[k] = vector->control;
    cases->cin[k] = vector->cin;
    Outcome outcome;
    model_outcome(cases->unit, unit_control_choice(cases->unit, vector->control), &vector->a,
                  &vector->b, vector->cin, &outcome);
    pack(cases, &outcome, cases->right + k * cases->out_limbs);
    return true;
}

bool cases_make(Cases *cases, const Unit *unit, const VectorPlan *plan, Problem *problem) {
    VectorCount count;
    vectors_count(unit, plan, &count);
    *cases = (Cases){.unit = unit,
                     .limbs = (unit->width + 63) / 64,
                     .out_limbs = (unit->width + FLAG_COUNT + 63) / 64};
    size_t total = (size_t)count.total;
    if (count.total > CASES_LIMBS_MAX / (2 * cases->limbs + cases->out_limbs))
        return problem_set(problem, STATUS_INVALID,
                           "%llu vectors of %u bits are more than check holds in memory; give "
                           "fewer --vectors",
                           (unsigned long long)count.total, unit->width);
    cases->a = memory_zeroed(total * cases->limbs, sizeof *cases->a);
    cases->b = memory_zeroed(total * cases->limbs, sizeof *cases->b);
    cases->control = memory_zeroed(total, sizeof *cases->control);
    cases->cin = memory_zeroed(total, sizeof *cases->cin);
    cases->right = memory_zeroed(total * cases->out_limbs, sizeof *cases->right);
    vectors_each(unit, plan, take_case, cases);
    return true;
}

void cases_add(Cases *cases, const Vector *vector) {
    size_t total = cases->count + 1;
    cases->a = memory_resize(cases->a, total * cases->limbs, sizeof *cases->a);
    cases->b = memory_resize(cases->b, total * cases->limbs, sizeof *cases->b);
    cases->control = memory_resize(cases->control, total, sizeof *cases->control);
    cases->cin = memory_resize(cases->cin, total, sizeof *cases->cin);
    cases->right = memory_resize(cases->right, total * cases->out_limbs, sizeof *cases->right);
    memset(cases->right + cases->count * cases->out_limbs, 0,
           cases->out_limbs * sizeof *cases->right);
    take_case(cases, vector);
}

void cases_free(Cases *cases) {
    free(cases->a);
    free(cases->b);
    free(cases->control);
    free(cases->cin);
    free(cases->right);
}

void cases_operands(const Cases *cases, size_t k, Word *a, Word *b) {
    size_t bytes = cases->limbs * sizeof(uint64_t);
    a->width = cases->unit->width;
    b->width = cases->unit->width;
    memcpy(a->limb, cases->a + k * cases->limbs, bytes);
    memcpy(b->limb, cases->b + k * cases->limbs, bytes);
}

int cases_choice(const Cases *cases, size_t k) {
    return unit_control_choice(cases->unit, cases->control[k]);
}

void samples_free(Samples *samples) {
    free(samples->value);
    free(samples->unknown);
    *samples = (Samples){.count = 0};
}
