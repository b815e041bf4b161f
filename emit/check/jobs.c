/* See jobs.h. */
#include "check/jobs.h"

#include "base/memory.h"
#include "base/signals.h"
#include "check/run/folder.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { CANNOT_WRITE = 5 }; /* the status of a piece that cannot write its answer */

typedef struct {
    pid_t process; /* 0: none */
    size_t piece;
    char *folder;
    FILE *reply;
} Job;

typedef struct {
    const Work *work;
    char *folder; /* around all folders */
    Job *job;
    unsigned at_once;
    Signals before;
    Answer *answers;
} Jobs;

/* ---- one job ------------------------------------------------------------------------------- */

static FILE *open_reply(const Jobs *jobs) {
    char *path = folder_path(jobs->folder, "reply");
    int file = open(path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    unlink(path);
    free(path);
    FILE *reply = file == -1 ? NULL : fdopen(file, "w+");
    if (reply == NULL && file != -1)
        close(file);
    return reply;
}

/* This process's end is told about by the one that waits for it. */
static void end_silently(void *context) {
    (void)context;
    exit(STATUS_SURROUNDINGS);
}

static void work_and_end(const Jobs *jobs, const Job *job) {
    signals_give_back(&jobs->before);
    memory_on_lack(end_silently, NULL);
    fence_limit_self(&jobs->work->limits);
    jobs->work->run(jobs->work->context, job->piece, job->folder, job->reply);
    exit(fflush(job->reply) == 0 ? 0 : CANNOT_WRITE);
}

static Answer read_reply(FILE *reply) {
    fseek(reply, 0, SEEK_END);
    long end = ftell(reply);
    rewind(reply);
    Answer answer = {.end = JOB_DONE, .text = memory_zeroed(end < 0 ? 1 : (size_t)end + 1, 1)};
    answer.bytes = fread(answer.text, 1, end < 0 ? 0 : (size_t)end, reply);
    return answer;
}

/* status: as waitpid gives it. */
static Answer answer_of(FILE *reply, int status) {
    if (WIFSIGNALED(status) && WTERMSIG(status) == SIGXCPU)
        return (Answer){.end = JOB_TIME};
    if (!WIFEXITED(status))
        return (Answer){.end = JOB_KILLED, .number = WTERMSIG(status)};
    switch (WEXITSTATUS(status)) {
    case 0:
        return read_reply(reply);
    case STATUS_SURROUNDINGS:
        return (Answer){.end = JOB_OUT_OF_MEMORY};
    case CANNOT_WRITE:
        return (Answer){.end = JOB_CANNOT_WRITE};
    default:
        return (Answer){.end = JOB_BROKE, .number = WEXITSTATUS(status)};
    }
}

/* Nothing of the job stays. */
static void end_job(Job *job) {
    if (job->reply != NULL)
        fclose(job->reply);
    if (job->folder != NULL)
        folder_remove(job->folder);
    free(job->folder);
    *job = (Job){0, 0, NULL, NULL};
}

static bool start(Jobs *jobs, Job *job, size_t piece, Problem *problem) {
    char name[32];
    snprintf(name, sizeof name, "job%zu", piece);
    *job = (Job){0, piece, folder_path(jobs->folder, name), open_reply(jobs)};
    bool good = job->reply != NULL && folder_create(job->folder);
    fflush(stdout);
    if (good)
        job->process = fork();
    if (good && job->process == 0)
        work_and_end(jobs, job);
    if (good && job->process > 0)
        return true;
    problem_set(problem, STATUS_SURROUNDINGS,
                "cannot start a check (%s); end some other programs or set TMPDIR",
                strerror(errno));
    end_job(job);
    return false;
}

/* ---- all of them --------------------------------------------------------------------------- */

static size_t end_those_done(Jobs *jobs) {
    size_t done = 0;
    for (unsigned j = 0; j < jobs->at_once; j++) {
        int status = 0;
        Job *job = &jobs->job[j];
        if (job->process == 0 || waitpid(job->process, &status, WNOHANG) != job->process)
            continue;
        jobs->answers[job->piece] = answer_of(job->reply, status);
        end_job(job);
        done++;
    }
    return done;
}

static void stop_all(Jobs *jobs) {
    for (unsigned j = 0; j < jobs->at_once; j++)
        if (jobs->job[j].process != 0)
            kill(jobs->job[j].process, SIGTERM);
    for (unsigned j = 0; j < jobs->at_once; j++) {
        while (jobs->job[j].process != 0 && waitpid(jobs->job[j].process, NULL, 0) == -1 &&
               errno == EINTR)
            continue;
        end_job(&jobs->job[j]);
    }
}

/* As many as there is room for. False after a problem, which may be over when one of those that run
 * has ended. */
static bool start_some(Jobs *jobs, size_t count, size_t *started, Problem *problem) {
    *problem = (Problem){STATUS_DONE, ""};
    for (unsigned j = 0; j < jobs->at_once && *started < count; j++) {
        if (jobs->job[j].process != 0)
            continue;
        if (!start(jobs, &jobs->job[j], *started, problem))
            return false;
        ++*started;
    }
    return true;
}

static bool run_all(Jobs *jobs, size_t count, Problem *problem) {
    size_t started = 0, done = 0;
    while (done < count) {
        if (!start_some(jobs, count, &started, problem) && started == done)
            return false;
        size_t more = end_those_done(jobs);
        done += more;
        if (more > 0 && jobs->work->progress != NULL)
            jobs->work->progress(jobs->work->context, done, count);
        if (signals_caught() != 0)
            return false;
        if (more == 0)
            signals_wait(&jobs->before);
    }
    return true;
}

bool jobs_run(const Work *work, size_t count, unsigned at_once, Answer *answers, Problem *problem) {
    Jobs jobs = {.work = work, .at_once = at_once, .answers = answers};
    signals_take(&jobs.before);
    jobs.folder = folder_make(problem);
    bool good = jobs.folder != NULL;
    if (good) {
        jobs.job = memory_zeroed(at_once, sizeof *jobs.job);
        good = run_all(&jobs, count, problem);
        stop_all(&jobs);
        free(jobs.job);
        folder_remove(jobs.folder);
        free(jobs.folder);
    }
    signals_give_back(&jobs.before);
    return good;
}
