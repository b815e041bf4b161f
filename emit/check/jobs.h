/* Several pieces of work at once, each in a process of its own with a temporary folder of its own,
 * and none left over whatever happens: a signal that ends this program ends them first. */
#ifndef SUMWRIGHT_CHECK_JOBS_H
#define SUMWRIGHT_CHECK_JOBS_H

#include "base/problem.h"
#include "check/run/fence.h"

#include <stddef.h>
#include <stdio.h>

typedef struct {
    /* One piece, in its own process: work in the folder, answer into reply. */
    void (*run)(void *context, size_t k, const char *folder, FILE *reply);
    /* One more is done, in this process; NULL: not asked for. */
    void (*progress)(void *context, size_t done, size_t count);
    void *context;
    FenceLimits limits; /* of the process of a piece itself */
} Work;

/* How the process of a piece ended. */
typedef enum {
    JOB_DONE,
    JOB_OUT_OF_MEMORY,
    JOB_TIME,         /* it took all the processor time that it may */
    JOB_CANNOT_WRITE, /* its answer */
    JOB_KILLED,       /* by a signal */
    JOB_BROKE,        /* with a status that it does not give */
} JobEnd;

typedef struct {
    JobEnd end;
    int number; /* JOB_KILLED: the signal; JOB_BROKE: the status */
    char *text; /* JOB_DONE: what it wrote, allocated, followed by a NUL; else NULL */
    size_t bytes;
} Answer;

/* Does `count` pieces, at most at_once at a time; answers[k] says what became of piece k, whatever
 * became of the others. False after a problem that stops them all (STATUS_SURROUNDINGS). The caller
 * frees the texts. */
bool jobs_run(const Work *work, size_t count, unsigned at_once, Answer *answers, Problem *problem);

#endif
