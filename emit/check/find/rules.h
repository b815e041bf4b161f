/* How a flag may have been made: the rules that are right, which people write in several ways, and
 * those that are mistakes. A rule is a row of a table. Private to this folder. */
#ifndef SUMWRIGHT_CHECK_FIND_RULES_H
#define SUMWRIGHT_CHECK_FIND_RULES_H

#include "check/find/mistakes.h"
#include "check/find/variant.h"

/* What has been found out about the whole run before any rule is tried. */
typedef struct {
    Word zero_missed;      /* result bits that are 1 in some case where the zero flag is 1 */
    Word negative_as;      /* result bits that are as the negative flag in every case */
    Word negative_against; /* result bits that are its opposite in every case */
} Hints;

/* One case, as a rule sees it. */
typedef struct {
    const Unit *unit;
    const Hints *hints;
    int told;               /* the choice asked for, or UNIT_NOTHING */
    const Machine *machine; /* what the variant does */
    const Word *a, *b;
    Word seen;                  /* the result pins; bits that are X or Z are 0 */
    bool seen_all;              /* none of them is */
    bool seen_flag[FLAG_COUNT]; /* false where X, Z or not there */
    bool right[FLAG_COUNT];
} View;

typedef struct {
    Flag flag;
    Mistake mistake;    /* MISTAKE_NONE: the rule is right */
    const char *detail; /* what the sentence says beside the mistake's own words, or "" */
    bool (*level)(const View *view);
} Rule;

enum { RULES_MAX = 31 }; /* rules of one flag, a bit each */

/* The rules of a flag, the right ones first; how many. */
int rules_of(Flag flag, Rule rules[RULES_MAX]);

#endif
