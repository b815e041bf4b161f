/* Running a program that works on somebody else's text, fenced in: no shell, no environment but
 * what it needs, a folder of its own, limits on time, memory, output and processes, and an end to
 * everything that it started.
 *
 * The process is made by fork and the program by execve with a list of arguments. posix_spawn would
 * not do: between the new process and the new program the limits and the folder have to be set, and
 * it has no attribute for limits and no portable action for a folder. Setting the limits before, in
 * this process, would put them on this process: its processor time counts, and with no process
 * allowed the spawn itself fails. Spawning this program again to set them would need its path,
 * which not every system tells, and an argument that users could meet. This program has one thread,
 * and the child calls nothing but system calls in between. */
#ifndef SUMWRIGHT_CHECK_RUN_FENCE_H
#define SUMWRIGHT_CHECK_RUN_FENCE_H

#include "base/problem.h"

#include <stdbool.h>
#include <stdint.h>

typedef struct {
    unsigned seconds;      /* of processor time, each process; by the clock four times as much */
    uint64_t memory_bytes; /* of address space, each process */
    uint64_t file_bytes;   /* of each file that it writes, standard output included */
    bool alone;            /* may start no process (where the system keeps such a limit for us) */
} FenceLimits;

typedef enum {
    FENCE_DONE,    /* ended by itself with status 0 */
    FENCE_FAILED,  /* ended by itself with another status */
    FENCE_TIME,    /* ran out of time */
    FENCE_OUTPUT,  /* wrote more than it may */
    FENCE_CRASHED, /* ended by a signal, as when memory runs out */
} FenceEnd;

/* Where a program is on the PATH, an absolute path that the caller frees; NULL when it is not. */
char *fence_find(const char *program);

/* The same limits for this process and what it starts, as far as they have none of their own; it ends
 * with the process that started it, where the system can see to that. */
void fence_limit_self(const FenceLimits *limits);

/* Runs the program (an absolute path) in the folder, standard output and error to the file `log`
 * there, and waits. SIGINT, SIGTERM, SIGHUP and SIGQUIT meanwhile end the program first and then
 * this process. False after a problem of the surroundings. */
bool fence_run(const char *folder, const char *program, char *const *arguments, const char *log,
               const FenceLimits *limits, FenceEnd *end, Problem *problem);

#endif
