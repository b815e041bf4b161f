/* The search for the theory, with a rule for each flag, that gives what was seen in every case, in
 * the fewest mistakes. Private to this folder; mistakes.c puts what is found into words. */
#ifndef SUMWRIGHT_CHECK_FIND_SEARCH_H
#define SUMWRIGHT_CHECK_FIND_SEARCH_H

#include "check/find/moves.h"

typedef struct {
    Theory theory;
    int rule[FLAG_COUNT][GROUPS_MAX]; /* of a flag that is wrong in a group; -1: it follows */
    bool used[GROUPS_MAX];            /* groups where the theory is needed */
    unsigned cost; /* two for each mistake; one more for a flag that only something explains */
} Explanation;

typedef struct {
    const Study *study;
    Fit base[GROUPS_MAX];       /* without any move */
    Fit base_stuck[GROUPS_MAX]; /* without any but that some bits are stuck */
    bool found;
    Explanation best;
} Search;

/* Fills in the rest of a search with its study set. No move is tried, then each, then each two. */
void search_all(Search *search);

/* The mistakes of an explanation, bit MISTAKE_x each. */
uint32_t search_mistakes(const Study *study, const Explanation *explanation);

#endif
