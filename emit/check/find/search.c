/* See search.h. */
#include "check/find/search.h"

/* ---- an explanation ------------------------------------------------------------------------ */

static int lowest(uint32_t bits) {
    int bit = 0;
    while (bits != 0 && (bits >> bit & 1) == 0)
        bit++;
    return bits == 0 ? -1 : bit;
}

/* Chooses a rule for each group in which the flag does not follow: one rule for all if there is
 * one, best of all one that fits the other groups, too. False where some group has none. */
static bool choose_rules(const Study *study, int flag, const Fit *fit, int chosen[GROUPS_MAX]) {
    uint32_t right = (UINT32_C(1) << study->rules[flag].right) - 1, everywhere = ~right,
             where_wrong = ~right;
    bool any = false;
    for (int g = 0; g < study->group_count; g++) {
        bool wrong = (fit[g].alive[flag] & right) == 0;
        chosen[g] = -1;
        any = any || wrong;
        everywhere &= fit[g].alive[flag];
        if (wrong)
            where_wrong &= fit[g].alive[flag];
    }
    int throughout = lowest(everywhere), common = lowest(where_wrong);
    for (int g = 0; g < study->group_count && any; g++) {
        chosen[g] = throughout;
        if (throughout >= 0 || (fit[g].alive[flag] & right) != 0)
            continue;
        chosen[g] = common >= 0 ? common : lowest(fit[g].alive[flag] & ~right);
        if (chosen[g] < 0)
            return false;
    }
    return true;
}

static bool explain_flags(const Study *study, const Fit *fit, Explanation *explanation) {
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        for (int g = 0; g < study->group_count; g++)
            explanation->rule[flag][g] = -1;
        if (study_has(study, (Flag)flag) &&
            !choose_rules(study, flag, fit, explanation->rule[flag]))
            return false;
    }
    return true;
}

uint32_t search_mistakes(const Study *study, const Explanation *explanation) {
    uint32_t mistakes = 0;
    for (int m = 0; m < explanation->theory.count; m++)
        mistakes |= UINT32_C(1) << explanation->theory.move[m]->mistake;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        for (int g = 0; g < study->group_count; g++)
            if (explanation->rule[flag][g] >= 0)
                mistakes |= UINT32_C(1)
                            << study->rules[flag].rule[explanation->rule[flag][g]].mistake;
    if (study->any_unknown)
        mistakes |= UINT32_C(1) << MISTAKE_UNDRIVEN;
    if (study->late != 0)
        mistakes |= UINT32_C(1) << MISTAKE_LATE;
    return mistakes;
}

static unsigned cost_of(const Study *study, const Explanation *explanation) {
    unsigned cost = 0;
    for (uint32_t left = search_mistakes(study, explanation); left != 0; left &= left - 1)
        cost += 2;
    bool dearer = false;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        for (int g = 0; g < study->group_count; g++) {
            int rule = explanation->rule[flag][g];
            dearer =
                dearer || (rule >= 0 && study->rules[flag].rule[rule].saying == SAY_CANNOT_TELL);
        }
    return cost + dearer;
}

/* Does the theory, with a rule for each flag, give what was seen in every case? Groups where the
 * result is right without it need not show it, unless it shows everywhere. */
static bool explain(const Study *study, const Fit *base, const Fit *base_stuck,
                    Explanation *explanation) {
    const Theory *theory = &explanation->theory;
    const Fit *given = theory->stuck ? base_stuck : base;
    Fit fit[GROUPS_MAX];
    bool moved = theory->count > (theory->stuck ? 1 : 0), any = false;
    for (int g = 0; g < study->group_count; g++) {
        explanation->used[g] = moved && (theory->everywhere || !given[g].agrees);
        any = any || explanation->used[g];
        if (!explanation->used[g])
            fit[g] = given[g];
        else
            study_fit(study, &theory->variant, theory->stuck, g, &fit[g]);
        if (!fit[g].agrees)
            return false;
    }
    if (moved && !any)
        return false;
    if (!explain_flags(study, fit, explanation))
        return false;
    explanation->cost = cost_of(study, explanation);
    return true;
}
/* ---- the search ---------------------------------------------------------------------------- */

static const Variant as_it_should_be;

static void try_theory(Search *search, const Move *const *chosen, int count) {
    Explanation explanation;
    Theory *theory = &explanation.theory;
    *theory = (Theory){.count = 0};
    bool breaks = false;
    for (int m = 0; m < count; m++) {
        if (!theory_add(search->study, theory, chosen[m]))
            return;
        breaks = breaks || chosen[m]->kind == MOVE_BREAKS;
    }
    if (breaks && !theory_find_breaks(search->study,
                                      theory->stuck ? search->base_stuck : search->base, theory))
        return;
    if (!explain(search->study, search->base, search->base_stuck, &explanation))
        return;
    if (search->found && search->best.cost <= explanation.cost)
        return;
    search->found = true;
    search->best = explanation;
    if (breaks)
        search->best.theory.variant.breaks = &search->best.theory.breaks;
}

/* No move, then each, then each two; a dearer explanation is not looked for when there is a cheaper
 * one. */
void search_all(Search *search) {
    int count = 0;
    const Move *moves = moves_all(&count), *chosen[MOVES_AT_ONCE] = {NULL};
    for (int g = 0; g < search->study->group_count; g++) {
        study_fit(search->study, &as_it_should_be, false, g, &search->base[g]);
        search->base_stuck[g] = search->base[g];
        if (search->study->any_stuck)
            study_fit(search->study, &as_it_should_be, true, g, &search->base_stuck[g]);
    }
    try_theory(search, chosen, 0);
    for (int m = 0; m < count && !(search->found && search->best.cost <= 2); m++) {
        chosen[0] = &moves[m];
        try_theory(search, chosen, 1);
    }
    for (int m = 0; m < count && !(search->found && search->best.cost <= 4); m++)
        for (int n = m + 1; n < count; n++) {
            chosen[0] = &moves[m];
            chosen[1] = &moves[n];
            if (moves[m].kind != moves[n].kind)
                try_theory(search, chosen, 2);
        }
}
