/* See study.h. */
#include "check/find/study.h"

#include "base/memory.h"

#include <stdlib.h>
#include <string.h>

/* ---- samples ------------------------------------------------------------------------------- */

static size_t sample_of(const Study *study, size_t k) {
    return schedule_sample(study->evidence->schedule, k, study->late);
}

static const uint64_t *value_of(const Study *study, size_t k) {
    const Samples *samples = study->evidence->samples;
    return samples->value + sample_of(study, k) * samples->limbs;
}

static const uint64_t *unknown_of(const Study *study, size_t k) {
    const Samples *samples = study->evidence->samples;
    return samples->unknown + sample_of(study, k) * samples->limbs;
}

static const uint64_t *right_of(const Study *study, size_t k) {
    const Cases *cases = study->evidence->cases;
    return cases->right + k * cases->out_limbs;
}

bool study_has(const Study *study, Flag flag) {
    return study->evidence->mapping->port[PIN_FLAG + flag] != NULL;
}

bool study_is_wrong(const Study *study, size_t k) {
    const uint64_t *value = value_of(study, k), *unknown = unknown_of(study, k);
    const uint64_t *right = right_of(study, k);
    for (unsigned limb = 0; limb < study->evidence->cases->out_limbs; limb++)
        if ((((value[limb] ^ right[limb]) | unknown[limb]) & study->mask[limb]) != 0)
            return true;
    return false;
}

bool study_flag_unknown(const Study *study, size_t k, Flag flag) {
    return packed_bit(unknown_of(study, k), study->unit->width + (unsigned)flag);
}

/* The result of a packed word. */
static void unpack(const Study *study, const uint64_t *packed, Word *word) {
    word->width = study->unit->width;
    memcpy(word->limb, packed, study->evidence->cases->limbs * sizeof *packed);
    word_resize_unsigned(word, word, word->width); /* without the flags */
}

void study_seen(const Study *study, size_t k, Word *seen, Word *unknown) {
    unpack(study, value_of(study, k), seen);
    unpack(study, unknown_of(study, k), unknown);
}

/* ---- what holds throughout ----------------------------------------------------------------- */

/* Bits of the result that take each level in some case, as seen and as they should. */
typedef struct {
    Word seen_0, seen_1, right_0, right_1;
} Levels;

static void note_levels(Levels *levels, const Word *seen, const Word *unknown, const Word *right) {
    Word zeros;
    word_or(&levels->seen_1, &levels->seen_1, seen);
    word_not(&zeros, seen);
    word_and_not(&zeros, &zeros, unknown);
    word_or(&levels->seen_0, &levels->seen_0, &zeros);
    word_or(&levels->right_1, &levels->right_1, right);
    word_not(&zeros, right);
    word_or(&levels->right_0, &levels->right_0, &zeros);
}

static void note_flags(Study *study, size_t k, const Word *seen) {
    const uint64_t *value = value_of(study, k), *right = right_of(study, k);
    unsigned width = study->unit->width;
    for (unsigned flag = 0; flag < FLAG_COUNT; flag++) {
        if (!study_has(study, (Flag)flag))
            continue;
        bool unknown = study_flag_unknown(study, k, (Flag)flag);
        bool differs = packed_bit(value, width + flag) != packed_bit(right, width + flag);
        study->flag_unknown[flag] = study->flag_unknown[flag] || unknown;
        study->any_unknown = study->any_unknown || unknown;
        study->flag_ever_wrong[flag] = study->flag_ever_wrong[flag] || unknown || differs;
    }
    if (packed_bit(value, width + FLAG_ZERO))
        word_or(&study->hints.zero_missed, &study->hints.zero_missed, seen);
    Word zeros;
    word_not(&zeros, seen);
    if (study_has(study, FLAG_NEGATIVE) && !study_flag_unknown(study, k, FLAG_NEGATIVE)) {
        bool negative = packed_bit(value, width + FLAG_NEGATIVE);
        word_and_not(&study->hints.negative_as, &study->hints.negative_as,
                     negative ? &zeros : seen);
        word_and_not(&study->hints.negative_against, &study->hints.negative_against,
                     negative ? seen : &zeros);
    }
}

static void note_case(Study *study, size_t k, Levels *levels) {
    Word seen, unknown, right, differs;
    study_seen(study, k, &seen, &unknown);
    unpack(study, right_of(study, k), &right);
    note_levels(levels, &seen, &unknown, &right);
    word_xor(&differs, &seen, &right);
    word_or(&study->ever_wrong, &study->ever_wrong, &differs);
    word_or(&study->ever_wrong, &study->ever_wrong, &unknown);
    word_or(&study->unknown, &study->unknown, &unknown);
    note_flags(study, k, &seen);
}

/* A bit is stuck when it takes one level only and should take both. */
static void find_stuck(Study *study, const Levels *levels) {
    Word varies, both;
    word_and(&varies, &levels->right_0, &levels->right_1);
    word_and(&both, &levels->seen_0, &levels->seen_1);
    study->stuck = varies;
    word_and_not(&study->stuck, &study->stuck, &both);
    word_and_not(&study->stuck, &study->stuck, &study->unknown);
    word_and(&study->stuck_level, &study->stuck, &levels->seen_1);
    study->any_stuck = !word_is_zero(&study->stuck);
}

static void note_all(Study *study) {
    unsigned width = study->unit->width;
    Levels levels;
    Word *zeroed[] = {&levels.seen_0,           &levels.seen_1,  &levels.right_0,
                      &levels.right_1,          &study->unknown, &study->ever_wrong,
                      &study->hints.zero_missed};
    for (size_t k = 0; k < sizeof zeroed / sizeof zeroed[0]; k++)
        word_zero(zeroed[k], width);
    word_ones(&study->hints.negative_as, width);
    word_ones(&study->hints.negative_against, width);
    for (size_t k = 0; k < study->evidence->cases->count; k++)
        note_case(study, k, &levels);
    study->any_unknown = study->any_unknown || !word_is_zero(&study->unknown);
    find_stuck(study, &levels);
}

/* ---- groups -------------------------------------------------------------------------------- */

static int group_of(const Study *study, size_t k) {
    int choice = cases_choice(study->evidence->cases, k);
    return choice == UNIT_NOTHING ? study->group_count - 1 : choice;
}

static void count_wrong(Study *study) {
    for (size_t k = 0; k < study->evidence->cases->count; k++)
        study->wrong_count += study_is_wrong(study, k);
}

static void sort_into_groups(Study *study) {
    const Cases *cases = study->evidence->cases;
    size_t next[GROUPS_MAX], last[GROUPS_MAX];
    for (size_t k = 0; k < cases->count; k++)
        study->begin[group_of(study, k) + 1]++;
    for (int g = 0; g < study->group_count; g++) {
        study->begin[g + 1] += study->begin[g];
        next[g] = study->begin[g];
        last[g] = study->begin[g + 1];
    }
    study->order = memory_zeroed(cases->count, sizeof *study->order);
    for (size_t k = 0; k < cases->count; k++) {
        int g = group_of(study, k);
        bool wrong = study_is_wrong(study, k);
        study->wrong[g] += wrong;
        study->order[wrong ? next[g]++ : --last[g]] = k;
    }
}

void study_make(Study *study, const Evidence *evidence, int late) {
    memset(study, 0, sizeof *study);
    study->evidence = evidence;
    study->unit = evidence->cases->unit;
    study->late = late;
    study->group_count = study->unit->choice_count + 1;
    study->mask = memory_zeroed(evidence->cases->out_limbs, sizeof *study->mask);
    schedule_mask(evidence->cases, evidence->mapping, study->mask);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        rules_of((Flag)flag, &study->rules[flag]);
    count_wrong(study);
    if (study->wrong_count == 0)
        return;
    sort_into_groups(study);
    note_all(study);
}

void study_free(Study *study) {
    free(study->mask);
    free(study->order);
}

/* ---- trying a variant ---------------------------------------------------------------------- */

void study_view(const Study *study, const Variant *variant, size_t k, Machine *machine, Word *a,
                Word *b, Word *unknown, View *view) {
    const Cases *cases = study->evidence->cases;
    unsigned width = study->unit->width;
    cases_operands(cases, k, a, b);
    variant_run(study->unit, variant, cases->control[k], a, b, cases->cin[k], machine);
    view->unit = study->unit;
    view->hints = &study->hints;
    view->told = cases_choice(cases, k);
    view->machine = machine;
    view->a = a;
    view->b = b;
    study_seen(study, k, &view->seen, unknown);
    view->seen_all = word_is_zero(unknown);
    for (unsigned flag = 0; flag < FLAG_COUNT; flag++) {
        view->seen_flag[flag] = packed_bit(value_of(study, k), width + flag);
        view->right[flag] = packed_bit(right_of(study, k), width + flag);
    }
}

bool study_result_agrees(const Study *study, const Machine *machine, const View *view,
                         const Word *unknown, bool but_stuck) {
    for (unsigned limb = 0; limb < study->evidence->cases->limbs; limb++) {
        uint64_t differs = machine->result.limb[limb] ^ view->seen.limb[limb];
        differs &= ~unknown->limb[limb];
        if (but_stuck)
            differs &= ~study->stuck.limb[limb];
        if (differs != 0)
            return false;
    }
    return true;
}

static uint32_t rules_that_agree(const RuleList *list, View *view, uint32_t alive) {
    for (int r = 0; r < list->count; r++)
        if ((alive >> r & 1) != 0 &&
            rule_level(&list->rule[r], view) != view->seen_flag[list->rule[r].flag])
            alive &= ~(UINT32_C(1) << r);
    return alive;
}

bool study_fit(const Study *study, const Variant *variant, bool but_stuck, int group, Fit *fit) {
    View view;
    Machine machine;
    Word a, b, unknown;
    fit->agrees = false;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        fit->alive[flag] = (UINT32_C(1) << study->rules[flag].count) - 1;
    for (size_t i = study->begin[group]; i < study->begin[group + 1]; i++) {
        size_t k = study->order[i];
        study_view(study, variant, k, &machine, &a, &b, &unknown, &view);
        if (!study_result_agrees(study, &machine, &view, &unknown, but_stuck))
            return false;
        for (int flag = 0; flag < FLAG_COUNT; flag++)
            if (study_has(study, (Flag)flag) && !study_flag_unknown(study, k, (Flag)flag))
                fit->alive[flag] = rules_that_agree(&study->rules[flag], &view, fit->alive[flag]);
    }
    fit->agrees = true;
    return true;
}
