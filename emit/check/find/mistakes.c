/* See mistakes.h. A mistake in what is added is a row of the table in moves.c, one in a flag a row
 * of the table in rules.c; here each has its name and sentence. */
#include "check/find/mistakes.h"

#include "check/find/describe.h"
#include "check/find/search.h"

#include <string.h>

static const struct {
    const char *name;
    const char *sentence;
} sentences[MISTAKE_COUNT] = {
    [MISTAKE_FIRST_CARRY_MISSING] = {"first-carry-missing",
                                     "subtraction lacks the +1: it computes a + not b"},
    [MISTAKE_OPERAND_NOT_INVERTED] = {"operand-not-inverted",
                                      "subtraction adds the operand itself, not its complement"},
    [MISTAKE_OPERANDS_SWAPPED] = {"operands-swapped",
                                  "subtraction takes the operands the wrong way round"},
    [MISTAKE_CONTROL_REVERSED] = {"control-reversed",
                                  "it adds when told to subtract and subtracts when told to add"},
    [MISTAKE_CARRY_SENSE_REVERSED] = {"carry-sense-reversed",
                                      "the carry in subtraction has the opposite sense: borrow for "
                                      "no borrow"},
    [MISTAKE_OVERFLOW_REPEATS_CARRY] = {"overflow-repeats-carry",
                                        "the overflow pin is the carry out"},
    [MISTAKE_OVERFLOW_FORGETS_SUBTRACTION] =
        {"overflow-forgets-subtraction",
         "overflow in subtraction goes by the rule for addition, on the operand before inversion"},
    [MISTAKE_OVERFLOW_INVERTED] = {"overflow-inverted", "the overflow pin is upside down"},
    [MISTAKE_ZERO_MISSES_BITS] = {"zero-misses-bits",
                                  "the zero flag looks at a part of the result only"},
    [MISTAKE_NEGATIVE_WRONG] = {"negative-wrong", "the negative flag is not the sign bit"},
    [MISTAKE_BITS_REVERSED] = {"bits-reversed", "a bus is wired in the opposite order"},
    [MISTAKE_CARRY_BROKEN] = {"carry-broken", "a carry does not reach its column"},
    [MISTAKE_BIT_STUCK] = {"bit-stuck", "an output never changes"},
    [MISTAKE_UNDRIVEN] = {"undriven", "an output is X or Z: nothing drives it, or several do"},
    [MISTAKE_WIDTH_SHORT] = {"width-short", "only the lower bits are right"},
    [MISTAKE_LATE] = {"late", "it is right, but at another clock"},
    [MISTAKE_UNEXPLAINED] = {"unexplained", "no mistake that is known explains it"},
};

const char *mistake_name(Mistake mistake) {
    return sentences[mistake].name;
}

const char *mistake_sentence(Mistake mistake) {
    return sentences[mistake].sentence;
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
    static Search search;
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
    diagnosis->finding[diagnosis->finding_count++] = (Finding){.mistake = MISTAKE_UNEXPLAINED};
}

void mistakes_find(const Evidence *evidence, Diagnosis *diagnosis) {
    static Search search;
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
