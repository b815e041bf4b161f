/* See mistakes.h. */
#include "check/find/mistakes.h"

#include "check/find/describe.h"
#include "check/find/search.h"

#include <assert.h>
#include <string.h>

#define MISTAKE_FACTS(ID, name, of_subtraction, sentence) {name, sentence, of_subtraction},
static const MistakeFacts mistakes[MISTAKE_COUNT] = {MISTAKES(MISTAKE_FACTS)};

const MistakeFacts *mistake_facts(Mistake mistake) {
    assert(mistake > MISTAKE_NONE && (int)mistake < MISTAKE_COUNT);
    return &mistakes[mistake];
}

/* ---- the smallest mismatching case --------------------------------------------------------- */

static unsigned length_of(const Word *word) {
    unsigned bit = word->width;
    while (bit > 0 && !word_bit(word, bit - 1))
        bit--;
    return bit;
}

/* Smaller: shorter operands, then a lesser sum of the two. */
static bool is_smaller(const Study *study, size_t one, size_t other) {
    Word a[2], b[2];
    unsigned length[2];
    size_t which[2] = {one, other};
    for (int k = 0; k < 2; k++) {
        cases_operands(study->evidence->cases, which[k], &a[k], &b[k]);
        unsigned of_a = length_of(&a[k]), of_b = length_of(&b[k]);
        length[k] = of_a > of_b ? of_a : of_b;
        word_resize_unsigned(&a[k], &a[k], study->unit->width + 1);
        word_resize_unsigned(&b[k], &b[k], study->unit->width + 1);
        word_add(&a[k], &a[k], &b[k], false);
    }
    if (length[0] != length[1])
        return length[0] < length[1];
    return word_subtract(&b[0], &a[0], &a[1], false);
}

static void find_example(const Study *study, Diagnosis *diagnosis) {
    bool found = false;
    for (int g = 0; g < study->group_count; g++)
        for (size_t i = 0; i < study->wrong[g]; i++) {
            size_t k = study->order[study->begin[g] + i];
            if (!found || is_smaller(study, k, diagnosis->example))
                diagnosis->example = k;
            found = true;
        }
}
/* ---- finding out --------------------------------------------------------------------------- */

/* Looks at the samples some clocks later or earlier. */
static bool explain_at(const Evidence *evidence, int late, Search *search, Study *study) {
    study_make(study, evidence, late);
    *search = (Search){.study = study};
    search_all(search);
    return search->found;
}

/* A design with a clock may be right at another time; the nearest time first. */
static void explain_at_other_times(const Evidence *evidence, const Study *in_time,
                                   Diagnosis *diagnosis) {
    Search search;
    int latency = (int)evidence->schedule->latency;
    for (int step = 1; step <= SCHEDULE_LATE_MAX; step++)
        for (int sign = 1; sign >= -1; sign -= 2) {
            if (diagnosis->finding_count > 0 || (sign < 0 && step > latency))
                continue;
            Study study;
            if (explain_at(evidence, sign * step, &search, &study)) {
                diagnosis->late = study.late;
                describe(&study, in_time, &search.best, diagnosis);
            }
            study_free(&study);
        }
}

static void add_unexplained(Diagnosis *diagnosis) {
    diagnosis_add(diagnosis, MISTAKE_UNEXPLAINED, "");
}

void diagnosis_add(Diagnosis *diagnosis, Mistake mistake, const char *detail) {
    int f = 0;
    while (f < diagnosis->finding_count && diagnosis->finding[f].mistake != mistake)
        f++;
    if (f == FINDINGS_MAX)
        return;
    Finding *finding = &diagnosis->finding[f];
    if (f == diagnosis->finding_count) {
        *finding = (Finding){.mistake = mistake, .share = -1};
        diagnosis->finding_count++;
    }
    size_t used = strlen(finding->detail);
    snprintf(finding->detail + used, sizeof finding->detail - used, "%s%s", used > 0 ? ", " : "",
             detail);
}

void mistakes_find(const Evidence *evidence, Diagnosis *diagnosis) {
    Search search;
    Study study;
    *diagnosis = (Diagnosis){.cases = evidence->cases->count, .first_column = -1};
    study_make(&study, evidence, 0);
    diagnosis->wrong = study.wrong_count;
    diagnosis->tail = TAIL_RIGHT;
    if (study.wrong_count == 0) {
        diagnosis->tail = schedule_tail(evidence->schedule, evidence->cases, evidence->mapping,
                                        evidence->samples);
        if (diagnosis->tail != TAIL_RIGHT)
            add_unexplained(diagnosis);
        study_free(&study);
        return;
    }
    for (int g = 0; g < study.group_count; g++) {
        diagnosis->asked[g] = study.begin[g + 1] - study.begin[g];
        diagnosis->wrong_of[g] = study.wrong[g];
    }
    memcpy(diagnosis->wrong_flag, study.flag_ever_wrong, sizeof diagnosis->wrong_flag);
    if (!word_is_zero(&study.ever_wrong))
        diagnosis->first_column = (int)moves_lowest_wrong(&study);
    find_example(&study, diagnosis);
    if (!evidence->schedule->clocked && evidence->samples->moves)
        diagnosis->tail = TAIL_STALE;
    search = (Search){.study = &study};
    search_all(&search);
    if (search.found)
        describe(&study, &study, &search.best, diagnosis);
    else if (evidence->schedule->clocked)
        explain_at_other_times(evidence, &study, diagnosis);
    /* What depends on what came before is near to no circuit of gates. */
    if (diagnosis->finding_count == 0 && diagnosis->tail == TAIL_STALE)
        add_unexplained(diagnosis);
    else if (diagnosis->finding_count == 0)
        describe_nearest(&study, diagnosis);
    study_free(&study);
}
