/* How many of the mismatching cases one mistake explains alone, and what speaks against it. Private
 * to this folder. */
#ifndef SUMWRIGHT_CHECK_FIND_SHARE_H
#define SUMWRIGHT_CHECK_FIND_SHARE_H

#include "check/find/study.h"

/* What is tried alone: a variant, or a mistake in the flags. */
typedef struct {
    const Variant *variant;
    bool stuck;
    Mistake mistake;
    const Rule *rule; /* that its flag is made by, or NULL: by any of this mistake or a right one */
} Alone;

/* The share, 0 to 1, of a sample of the cases that are wrong, some thousands of them. */
double share_of(const Study *study, const Alone *alone);

/* Of a small sample, how much more of all cases the mistake explains than no mistake does: what it
 * explains of the wrong ones less what it makes wrong of the right ones, as a share of all; -1
 * where it explains none. */
double share_gained(const Study *study, const Alone *alone);

/* The share of the cases that are right and would be wrong with the mistake. */
double share_against(const Study *study, const Alone *alone);

#endif
