/* The evidence of a run made ready for trying variants on it: which cases differ, sorted by what
 * was asked for, and what holds throughout. Private to this folder; mistakes.c searches with it. */
#ifndef SUMWRIGHT_CHECK_FIND_STUDY_H
#define SUMWRIGHT_CHECK_FIND_STUDY_H

#include "check/find/rules.h"

typedef struct {
    const Evidence *evidence;
    const Unit *unit;
    int late;                     /* clocks that samples are looked at later */
    uint64_t *mask;               /* the bits of a packed word that the design has */
    int group_count;              /* a choice each, and nothing requested */
    size_t *order;                /* cases by group, in each the wrong ones first */
    size_t begin[GROUPS_MAX + 1]; /* where a group begins in order */
    size_t wrong[GROUPS_MAX];     /* how many of a group are wrong */
    size_t wrong_count;
    Word ever_wrong; /* result bits that are wrong, or X or Z, in some case */
    bool flag_ever_wrong[FLAG_COUNT];
    Word unknown; /* result bits that are X or Z in some case */
    bool flag_unknown[FLAG_COUNT];
    bool any_unknown;
    Word stuck; /* result bits that never change, though they should */
    Word stuck_level;
    bool any_stuck;
    Hints hints;
    RuleList rules[FLAG_COUNT];
} Study;

/* Where no case is wrong, only that is found: there are no groups and nothing that holds
 * throughout. */
void study_make(Study *study, const Evidence *evidence, int late);
void study_free(Study *study);

bool study_has(const Study *study, Flag flag);
bool study_is_wrong(const Study *study, size_t k);

/* The result pins of a case: levels (0 where X or Z), and the bits that are X or Z. */
void study_seen(const Study *study, size_t k, Word *seen, Word *unknown);

/* One case as the rules see it, with what the variant does; unknown: as study_seen. */
void study_view(const Study *study, const Variant *variant, size_t k, Machine *machine, Word *a,
                Word *b, Word *unknown, View *view);

/* Is the flag X or Z in this case? */
bool study_flag_unknown(const Study *study, size_t k, Flag flag);

/* Does the result agree with the machine's, but for bits that are unknown and, if so wished, for
 * those that are stuck? */
bool study_result_agrees(const Study *study, const Machine *machine, const View *view,
                         const Word *unknown, bool but_stuck);

/* The rules of each flag that agree in every case of a group; false, and early, when the result
 * does not agree. */
typedef struct {
    bool agrees;
    uint32_t alive[FLAG_COUNT]; /* bit r: rule r */
} Fit;
bool study_fit(const Study *study, const Variant *variant, bool but_stuck, int group, Fit *fit);

#endif
