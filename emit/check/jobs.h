/* Several pieces of work at once, each in a process of its own with a temporary folder of its own,
 * and none left over whatever happens: a signal that ends this program ends them first. */
#ifndef SUMWRIGHT_CHECK_JOBS_H
#define SUMWRIGHT_CHECK_JOBS_H

#include "base/problem.h"

#include <stddef.h>
#include <stdio.h>

typedef struct {
    /* One piece, in its own process: work in the folder, answer into reply. */
    void (*run)(void *context, size_t k, const char *folder, FILE *reply);
    /* One more is done, in this process; NULL: not asked for. */
    void (*progress)(void *context, size_t done, size_t count);
    void *context;
} Work;

typedef struct {
    char *text; /* allocated, followed by a NUL; NULL where the process came to grief */
    size_t bytes;
} Answer;

/* Does `count` pieces, at most at_once at a time; answers[k] is what piece k wrote. False after a
 * problem (STATUS_SURROUNDINGS). */
bool jobs_run(const Work *work, size_t count, unsigned at_once, Answer *answers, Problem *problem);

#endif
