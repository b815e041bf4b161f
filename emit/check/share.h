/* How many of the mismatching cases one mistake explains alone. Private to this folder. */
#ifndef SUMWRIGHT_CHECK_SHARE_H
#define SUMWRIGHT_CHECK_SHARE_H

#include "check/study.h"

/* What is tried alone: a variant, or a rule for one mistake in the flags. */
typedef struct {
    const Variant *variant;
    bool stuck;
    Mistake mistake;
} Alone;

/* The share, 0 to 1, of a sample of the cases that are wrong, some thousands of them. */
double share_of(const Study *study, const Alone *alone);

#endif
