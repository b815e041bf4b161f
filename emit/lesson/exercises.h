/* A sheet of exercises and the sheet of their solutions, as HTML to print. */
#ifndef SUMWRIGHT_LESSON_EXERCISES_H
#define SUMWRIGHT_LESSON_EXERCISES_H

#include "base/problem.h"
#include "lesson/facts.h"

#include <stdio.h>

/* Writes the sheet of these questions (see questions.h), with that left blank; nothing blank: the
 * solutions, with their sentences. The seed is named on it. A write error on out is for its owner to
 * detect; a problem is one of the template. */
bool exercises_write(const Working *question, int count, Blank blank, uint64_t seed, FILE *out,
                     Problem *problem);

#endif
