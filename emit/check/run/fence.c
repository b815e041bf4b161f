/* See fence.h. */
#include "check/run/fence.h"

#include "base/memory.h"
#include "base/signals.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/prctl.h>
#endif

/* Processor time decides; the clock ends only what waits, on a machine however busy. */
enum { CLOCK_FACTOR = 6, CLOCK_SECONDS = 10 };

/* ---- finding it ---------------------------------------------------------------------------- */

static bool is_program(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISREG(status.st_mode) && access(path, X_OK) == 0;
}

char *fence_find(const char *program) {
    const char *path = getenv("PATH");
    char candidate[PATH_MAX];
    for (const char *folder = path; folder != NULL && *folder != '\0';) {
        int length = (int)strcspn(folder, ":");
        int used = snprintf(candidate, sizeof candidate, "%.*s/%s", length,
                            length > 0 ? folder : ".", program);
        if (used < (int)sizeof candidate && is_program(candidate))
            return realpath(candidate, NULL);
        folder += length + (folder[length] == ':');
    }
    return NULL;
}

/* ---- the child ----------------------------------------------------------------------------- */

/* The least of two limits of the system's. */
static rlim_t least(uint64_t wanted, rlim_t most) {
    return most != RLIM_INFINITY && (rlim_t)wanted > most ? most : (rlim_t)wanted;
}

/* Where the second limit is above the first, the reason for an end is still told by the first. */
static void limit(int resource, uint64_t soft, uint64_t hard) {
    struct rlimit now;
    if (getrlimit(resource, &now) != 0)
        return;
    struct rlimit wanted = {least(soft, now.rlim_max), least(hard, now.rlim_max)};
    setrlimit(resource, &wanted);
}

/* A sanitizer maps more addresses than any limit, and takes several times the time. */
#if defined(__SANITIZE_ADDRESS__)
#define FENCE_SANITIZED
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define FENCE_SANITIZED
#endif
#endif

/* Nothing outlives the process that started it, however that ends. */
static void end_with_parent(void) {
#ifdef __linux__
    prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
}

void fence_limit_self(const FenceLimits *limits) {
    end_with_parent();
#ifdef FENCE_SANITIZED
    limit(RLIMIT_CPU, 4 * limits->seconds, UINT32_MAX);
#else
    limit(RLIMIT_CPU, limits->seconds, UINT32_MAX);
#endif
#if defined(RLIMIT_AS) && !defined(FENCE_SANITIZED)
    limit(RLIMIT_AS, limits->memory_bytes, limits->memory_bytes);
#endif
}

static void set_limits(const FenceLimits *limits) {
    limit(RLIMIT_CPU, limits->seconds, limits->seconds + 2);
#ifdef RLIMIT_AS
    limit(RLIMIT_AS, limits->memory_bytes, limits->memory_bytes);
#endif
    limit(RLIMIT_FSIZE, limits->file_bytes, limits->file_bytes);
    limit(RLIMIT_CORE, 0, 0);
#ifdef RLIMIT_NPROC
    if (limits->alone)
        limit(RLIMIT_NPROC, 1, 1);
#endif
}

typedef struct {
    const char *folder, *program, *log;
    char *const *arguments;
    char *const *environment;
    const FenceLimits *limits;
    const Signals *before;
} Start;

/* In the child: only system calls, and the program in place of this one, or status 127. */
static void become(const Start *start) {
    end_with_parent();
    setpgid(0, 0);
    signals_default(start->before);
    int nothing = open("/dev/null", O_RDONLY);
    bool good = chdir(start->folder) == 0 && nothing != -1 && dup2(nothing, STDIN_FILENO) != -1;
    int log = open(start->log, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    good = good && log != -1 && dup2(log, STDOUT_FILENO) != -1 && dup2(log, STDERR_FILENO) != -1;
    if (nothing > STDERR_FILENO)
        close(nothing);
    if (log > STDERR_FILENO)
        close(log);
    if (good) {
        set_limits(start->limits);
        execve(start->program, start->arguments, start->environment);
    }
    _exit(127);
}

/* ---- waiting ------------------------------------------------------------------------------- */

/* Until the child has ended, the clock has run out, or a signal says to end. */
static bool wait_for(pid_t child, const Signals *before, int *status) {
    for (;;) {
        pid_t ended = waitpid(child, status, WNOHANG);
        if (ended == child)
            return true;
        if (signals_caught() != 0 || signals_rang() || (ended == -1 && errno != EINTR))
            return false;
        signals_wait(before);
    }
}

/* Of all processes of ours that have ended. */
static double processor_seconds(void) {
    struct rusage usage;
    getrusage(RUSAGE_CHILDREN, &usage);
    return (double)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
           (double)(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1e6;
}

/* long_run: it took the processor time that it may. Then a failure may be that of one which it
 * started, and SIGKILL the limit's; else SIGKILL is the system's, which is short of memory. */
static FenceEnd meaning(int status, bool long_run) {
    if (WIFEXITED(status) && WEXITSTATUS(status) == 0)
        return FENCE_DONE;
    if (WIFEXITED(status))
        return long_run ? FENCE_TIME : FENCE_FAILED;
    if (WTERMSIG(status) == SIGXCPU || (WTERMSIG(status) == SIGKILL && long_run))
        return FENCE_TIME;
    return WTERMSIG(status) == SIGXFSZ ? FENCE_OUTPUT : FENCE_CRASHED;
}

static FenceEnd watch(pid_t child, const FenceLimits *limits, const Signals *before, int *status) {
    double before_it = processor_seconds();
    alarm(limits->seconds * CLOCK_FACTOR + CLOCK_SECONDS);
    bool ended = wait_for(child, before, status);
    alarm(0);
    kill(-child, SIGKILL); /* whatever it started, and itself */
    if (ended)
        return meaning(*status, processor_seconds() - before_it >= limits->seconds - 0.5);
    while (waitpid(child, status, 0) == -1 && errno == EINTR)
        continue;
    return FENCE_TIME;
}

bool fence_run(const char *folder, const char *program, char *const *arguments, const char *log,
               const FenceLimits *limits, FenceEnd *end, Problem *problem) {
    const char *inherited = getenv("PATH");
    char *path = memory_text("PATH=%s", inherited != NULL ? inherited : "/usr/bin:/bin");
    char locale[] = "LC_ALL=C", temporary[] = "TMPDIR=.";
    char *const environment[] = {path, locale, temporary, NULL};
    Signals before;
    signals_take(&before);
    Start start = {folder, program, log, arguments, environment, limits, &before};
    pid_t child = fork();
    if (child == 0)
        become(&start);
    memory_free(path);
    if (child == -1) {
        problem_set(problem, STATUS_SURROUNDINGS, "cannot start a process (%s); end some others",
                    strerror(errno));
        signals_give_back(&before);
        return false;
    }
    setpgid(child, child); /* in the child, too: whoever comes first */
    int status = 0;
    *end = watch(child, limits, &before, &status);
    signals_give_back(&before);
    if (WIFEXITED(status) && WEXITSTATUS(status) == 127)
        return problem_set(problem, STATUS_SURROUNDINGS, "cannot start %s; install it anew",
                           problem_quote(program).text);
    return true;
}
