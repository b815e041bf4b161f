/* What was found, in words: which bits, columns, pins and operations. Private to this folder. */
#ifndef SUMWRIGHT_CHECK_FIND_DESCRIBE_H
#define SUMWRIGHT_CHECK_FIND_DESCRIBE_H

#include "check/find/search.h"

/* Adds the mistakes of an explanation to a diagnosis, with the share of each in what was wrong at
 * the time when it should have been right. */
void describe(const Study *study, const Study *in_time, const Explanation *explanation,
              Diagnosis *diagnosis);

/* Where nothing explains it all: adds MISTAKE_UNEXPLAINED, and the mistake that explains most. */
void describe_nearest(const Study *study, Diagnosis *diagnosis);

#endif
