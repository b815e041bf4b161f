/* See share.h. */
#include "check/find/share.h"

enum { SHARE_CASES = 4096, GAIN_CASES = 1024 }; /* looked at, evenly, for a share */

/* Could the flag have been made so: by a right rule, or by one of this mistake? */
static bool flag_agrees(const RuleList *list, View *view, int flag, const Alone *alone) {
    if (alone->rule != NULL && (int)alone->rule->flag == flag)
        return rule_level(alone->rule, view) == view->seen_flag[flag];
    for (int r = 0; r < list->count; r++) {
        bool counts = r < list->right || list->rule[r].mistake == alone->mistake;
        if (counts && rule_level(&list->rule[r], view) == view->seen_flag[flag])
            return true;
    }
    return false;
}

static bool explains_case(const Study *study, const Alone *alone, size_t k) {
    View view;
    Machine machine;
    Word a, b, unknown;
    study_view(study, alone->variant, k, &machine, &a, &b, &unknown, &view);
    if (!study_result_agrees(study, &machine, &view, &unknown, alone->stuck))
        return false;
    bool undriven = alone->mistake == MISTAKE_UNDRIVEN;
    if (!undriven && !view.seen_all)
        return false;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!study_has(study, (Flag)flag))
            continue;
        if (study_flag_unknown(study, k, (Flag)flag)
                ? !undriven
                : !flag_agrees(&study->rules[flag], &view, flag, alone))
            return false;
    }
    return true;
}

/* Of all cases that are wrong, or of all that are right, `most` looked at: those explained. */
typedef struct {
    size_t looked, explained;
} Count;

static Count count_explained(const Study *study, const Alone *alone, bool wrong, size_t most) {
    Count count = {0, 0};
    size_t total = study->evidence->cases->count;
    total = wrong ? study->wrong_count : total - study->wrong_count;
    size_t stride = total / most + 1, at = 0;
    for (int g = 0; g < study->group_count; g++) {
        size_t middle = study->begin[g] + study->wrong[g];
        size_t end = wrong ? middle : study->begin[g + 1];
        for (size_t i = wrong ? study->begin[g] : middle; i < end; i++) {
            if (at++ % stride != 0)
                continue;
            count.looked++;
            count.explained += explains_case(study, alone, study->order[i]);
        }
    }
    return count;
}

double share_of(const Study *study, const Alone *alone) {
    Count count = count_explained(study, alone, true, SHARE_CASES);
    return count.looked == 0 ? 0 : (double)count.explained / (double)count.looked;
}

double share_against(const Study *study, const Alone *alone) {
    Count count = count_explained(study, alone, false, SHARE_CASES);
    return count.looked == 0 ? 0 : 1 - (double)count.explained / (double)count.looked;
}

double share_gained(const Study *study, const Alone *alone) {
    double total = (double)study->evidence->cases->count, wrong = (double)study->wrong_count;
    Count gained = count_explained(study, alone, true, GAIN_CASES);
    if (gained.explained == 0)
        return -1;
    Count kept = count_explained(study, alone, false, GAIN_CASES);
    double gain = wrong * (double)gained.explained / (double)gained.looked;
    if (kept.looked > 0)
        gain -= (total - wrong) * (double)(kept.looked - kept.explained) / (double)kept.looked;
    return gain / total;
}
