/* See share.h. */
#include "check/share.h"

enum { SHARE_CASES = 4096 }; /* looked at, evenly, for a share */

/* Could the flag have been made so: by a right rule, or by one of this mistake? */
static bool flag_agrees(const Study *study, const View *view, int flag, Mistake mistake) {
    for (int r = 0; r < study->rule_count[flag]; r++) {
        const Rule *rule = &study->rule[flag][r];
        bool counts = rule->mistake == MISTAKE_NONE || rule->mistake == mistake;
        if (counts && rule->level(view) == view->seen_flag[flag])
            return true;
    }
    return false;
}

static bool explains_case(const Study *study, const Alone *alone, size_t k) {
    static View view;
    static Machine machine;
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
                : !flag_agrees(study, &view, flag, alone->mistake))
            return false;
    }
    return true;
}

double share_of(const Study *study, const Alone *alone) {
    size_t looked = 0, explained = 0;
    size_t stride = study->wrong_count / SHARE_CASES + 1, at = 0;
    for (int g = 0; g < study->group_count; g++)
        for (size_t i = 0; i < study->wrong[g]; i++) {
            if (at++ % stride != 0)
                continue;
            looked++;
            explained += explains_case(study, alone, study->order[study->begin[g] + i]);
        }
    return looked == 0 ? 0 : (double)explained / (double)looked;
}
