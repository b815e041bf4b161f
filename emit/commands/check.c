/* sumwright check: somebody's design in; a verdict, and the mistake that explains it, out. Each
 * design is checked in a process of its own (check/jobs.h); this one prints, in the order of the
 * command line, whatever came first. */
#include "commands/commands.h"

#include "base/memory.h"
#include "check/jobs.h"
#include "check/run/gates.h"
#include "check/verdict.h"
#include "commands/check_report.h"

#include <dirent.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* What the process of a check may take itself, for reading a design and finding its mistake, or for
 * comparing it for all inputs; the programs that it runs have limits of their own
 * (check/run/simulate.c). */
enum { JOB_SECONDS = 12, PROOF_SECONDS = 120 };
#define JOB_MEMORY (UINT64_C(3) << 30)

/* Everything about one run. */
typedef struct {
    const Request *request;
    Simulator simulator;
    char *yosys; /* its path with --prove, else NULL */
    ParameterSetting setting[OPTIONS_PARAMETERS_MAX];
    char **design; /* with --each: the files; else the design's files */
    size_t design_count;
} Check;

/* ---- which designs ------------------------------------------------------------------------- */

static void add_design(Check *check, const char *folder, const char *name) {
    size_t room = strlen(folder) + strlen(name) + 2;
    char *path = memory_zeroed(room, 1);
    bool slash = folder[0] != '\0' && folder[strlen(folder) - 1] != '/';
    snprintf(path, room, "%s%s%s", folder, slash ? "/" : "", name);
    check->design = memory_resize(check->design, check->design_count + 1, sizeof *check->design);
    check->design[check->design_count++] = path;
}

static bool is_verilog(const char *name) {
    size_t length = strlen(name);
    return name[0] != '.' && ((length > 2 && strcmp(name + length - 2, ".v") == 0) ||
                              (length > 3 && strcmp(name + length - 3, ".sv") == 0));
}

static int by_text(const void *one, const void *other) {
    return strcmp(*(char *const *)one, *(char *const *)other);
}

/* The Verilog files in a folder, sorted. */
static bool add_folder(Check *check, const char *path, Problem *problem) {
    size_t before = check->design_count;
    DIR *folder = opendir(path);
    for (const struct dirent *entry; folder != NULL && (entry = readdir(folder)) != NULL;)
        if (is_verilog(entry->d_name))
            add_design(check, path, entry->d_name);
    if (folder != NULL)
        closedir(folder);
    if (check->design_count == before)
        return problem_set(problem, STATUS_INVALID,
                           "folder %s has no .v or .sv file in it that can be read; name one with "
                           "designs",
                           problem_quote(path).text);
    qsort(check->design + before, check->design_count - before, sizeof *check->design, by_text);
    return true;
}

static bool find_designs(Check *check, Problem *problem) {
    const Request *request = check->request;
    if (request->operand_count == 0)
        return problem_set(problem, STATUS_INVALID,
                           "check is given no design; name its Verilog files");
    for (int k = 0; k < request->operand_count; k++) {
        const char *path = request->operands[k];
        struct stat status;
        bool folder = request->each && stat(path, &status) == 0 && S_ISDIR(status.st_mode);
        if (!folder)
            add_design(check, "", path);
        else if (!add_folder(check, path, problem))
            return false;
    }
    return true;
}

/* ---- asking -------------------------------------------------------------------------------- */

static void split_parameters(Check *check) {
    for (int k = 0; k < check->request->parameter_count; k++) {
        const char *text = check->request->parameters[k];
        size_t length = strcspn(text, "=");
        char *name = memory_zeroed(length + 1, 1);
        memcpy(name, text, length);
        check->setting[k] = (ParameterSetting){name, text + length + 1};
    }
}

static void ask(void *context, size_t k, const char *folder, FILE *reply) {
    const Check *check = context;
    const Request *request = check->request;
    bool each = request->each;
    Question question = {
        .simulator = &check->simulator,
        .yosys = check->yosys,
        .unit = &request->unit,
        .flags_asked = request->flags_given,
        .plan = {.random = request->random,
                 .seed = request->seed,
                 .exhaustive_bits = VECTORS_EXHAUSTIVE_BITS_MAX},
        .module = request->module,
        .settings = {check->setting, (size_t)request->parameter_count},
        .latency = request->latency,
        .others = check->design,
        .other_count = each ? check->design_count : 0,
        .paths = each ? check->design + k : check->design,
        .path_count = each ? 1 : check->design_count,
    };
    verdict_find(&question, folder, reply);
}

static void show_progress(void *context, size_t done, size_t count) {
    (void)context;
    fprintf(stderr, done == count ? "\r\033[K" : "\r%zu of %zu checked", done, count);
    fflush(stderr);
}

static unsigned jobs_wanted(const Request *request) {
    if (request->jobs > 0)
        return request->jobs;
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    return processors < 1                  ? 1
           : processors > OPTIONS_JOBS_MAX ? OPTIONS_JOBS_MAX
                                           : (unsigned)processors;
}

/* What is said of a check that ended without a verdict. */
static void explain_end(const Answer *answer, Verdict *verdict) {
    char reason[256];
    switch (answer->end) {
    case JOB_OUT_OF_MEMORY:
        verdict_without(verdict, VERDICT_FAILED, STATUS_SURROUNDINGS,
                        "out of memory; a narrower unit or fewer vectors need less");
        return;
    case JOB_TIME:
        verdict_without(verdict, VERDICT_UNTESTED, STATUS_UNTESTED,
                        "reading it, or looking for its mistake, takes more processor time than a "
                        "check has; a unit is shorter");
        return;
    case JOB_KILLED:
        snprintf(reason, sizeof reason,
                 "its check was ended by signal %d before the verdict%s; check it alone",
                 answer->number,
                 answer->number == SIGKILL ? ", as a system short of memory does" : "");
        break;
    case JOB_BROKE:
        snprintf(reason, sizeof reason,
                 "its check ended with status %d before the verdict; check it alone",
                 answer->number);
        break;
    case JOB_DONE:
    case JOB_CANNOT_WRITE:
        verdict_without(verdict, VERDICT_FAILED, STATUS_SURROUNDINGS,
                        "cannot write in the temporary folder; make room there or set TMPDIR");
        return;
    }
    verdict_without(verdict, VERDICT_UNTESTED, STATUS_UNTESTED, reason);
}

static void settle(const Answer *answer, Verdict *verdict) {
    if (answer->end == JOB_DONE && verdict_read(verdict, answer->text, answer->bytes))
        return;
    verdict_free(verdict);
    explain_end(answer, verdict);
}

/* What of the surroundings fails for every design is a problem of the run; what fails for some is
 * the reason why these are not tested. */
static bool settle_failures(Verdict *verdicts, size_t count, Problem *problem) {
    size_t failures = 0;
    for (size_t k = 0; k < count; k++)
        failures += verdicts[k].kind == VERDICT_FAILED;
    if (failures == count)
        return problem_set(problem, verdicts[0].status, "%s", verdicts[0].reason);
    for (size_t k = 0; k < count; k++)
        if (verdicts[k].kind == VERDICT_FAILED)
            verdicts[k].kind = VERDICT_UNTESTED;
    return true;
}

/* The verdicts of all designs; false after a problem of the surroundings. */
static bool find_verdicts(Check *check, Verdict *verdicts, size_t count, Problem *problem) {
    Answer *answers = memory_zeroed(count, sizeof *answers);
    bool shown = check->request->each && count > 1 && isatty(STDERR_FILENO) == 1;
    Work work = {
        ask,
        shown ? show_progress : NULL,
        check,
        {check->request->prove ? PROOF_SECONDS : JOB_SECONDS, JOB_MEMORY, UINT64_MAX, false}};
    bool good = jobs_run(&work, count, jobs_wanted(check->request), answers, problem);
    for (size_t k = 0; k < count && good; k++)
        settle(&answers[k], &verdicts[k]);
    good = good && settle_failures(verdicts, count, problem);
    for (size_t k = 0; k < count; k++)
        free(answers[k].text);
    free(answers);
    return good;
}

/* A wrong design outweighs one that could not be tested. */
static Status status_of(const Verdict *verdicts, size_t count) {
    Status status = STATUS_DONE;
    for (size_t k = 0; k < count; k++) {
        if (verdicts[k].kind == VERDICT_WRONG)
            return STATUS_WRONG_DESIGN;
        if (verdicts[k].kind == VERDICT_UNTESTED || verdicts[k].kind == VERDICT_UNPROVED)
            status = STATUS_UNTESTED;
    }
    return status;
}

static bool check_designs(Check *check, Problem *problem) {
    split_parameters(check);
    size_t count = check->request->each ? check->design_count : 1;
    Verdict *verdicts = memory_zeroed(count, sizeof *verdicts);
    bool good = find_verdicts(check, verdicts, count, problem);
    if (good) {
        Report report = {check->design, verdicts, count};
        check_report(&report, check->request->each, check->request->format, stdout);
        if (fflush(stdout) == 0) /* else main.c says so */
            problem->status = status_of(verdicts, count);
    }
    for (size_t k = 0; k < count; k++)
        verdict_free(&verdicts[k]);
    free(verdicts);
    for (int k = 0; k < check->request->parameter_count; k++)
        free((char *)check->setting[k].name);
    return good;
}

bool command_check(const Request *request, Problem *problem) {
    Check check = {.request = request};
    bool good = find_designs(&check, problem) && simulator_find(&check.simulator, problem);
    if (good && request->prove) {
        check.yosys = gates_find_yosys(problem);
        good = check.yosys != NULL;
    }
    good = good && check_designs(&check, problem);
    /* The one place that sees to it: a verdict, or an error and its status. */
    if (!good && problem->status == STATUS_DONE)
        problem_set(problem, STATUS_SURROUNDINGS,
                    "the check ended without a verdict; look at the temporary folder, set TMPDIR");
    simulator_free(&check.simulator);
    free(check.yosys);
    for (size_t k = 0; k < check.design_count; k++)
        free(check.design[k]);
    free(check.design);
    return good;
}
