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
    Flag flag;              /* that a rule is tried for */
    int told;               /* the choice asked for, or UNIT_NOTHING */
    const Machine *machine; /* what the variant does */
    const Word *a, *b;
    Word seen;                  /* the result pins; bits that are X or Z are 0 */
    bool seen_all;              /* none of them is */
    bool seen_flag[FLAG_COUNT]; /* false where X, Z or not there */
    bool right[FLAG_COUNT];
} View;

/* When a flag is its signal upside down. */
typedef enum {
    NEVER,
    ALWAYS,
    TOLD, /* when a subtraction is asked for, */
    TOLD_BORROW,
    TOLD_NO_BORROW, /* in units of this sense, */
    DOES_BORROW,    /* when the variant subtracts, likewise */
    DOES_NO_BORROW,
} Inverted;

/* What the sentence says beside the mistake's own words. */
typedef enum {
    SAY_NOTHING,
    SAY_IT_IS, /* it is, and the rule's text */
    SAY_PIN,   /* the pin */
    SAY_STUCK, /* the pin is, and the rule's text */
    SAY_MISSED_BITS,
    SAY_BIT_AS, /* which bit of the result it is, */
    SAY_BIT_AGAINST,
    SAY_CANNOT_TELL, /* only that it is wrong: dearer than any other explanation */
} Saying;

typedef struct {
    Flag flag;
    Mistake mistake; /* MISTAKE_NONE: the rule is right */
    bool (*signal)(const View *view);
    Inverted inverted;
    Saying saying;
    const char *text;
} Rule;

enum { RULES_MAX = 31 }; /* rules of one flag, a bit each */

typedef struct {
    Rule rule[RULES_MAX]; /* the right ones first */
    int right, count;
} RuleList;

void rules_of(Flag flag, RuleList *list);

/* What the flag is by this rule; sets view->flag. */
bool rule_level(const Rule *rule, View *view);

/* The highest bit that is 1, or -1. */
int rules_highest(const Word *bits);

#endif
