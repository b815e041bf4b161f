/* Picks the command. Everything a command prints on standard output is a result; everything that
 * goes wrong is one line on standard error and an exit status (base/problem.h). */
#include "base/memory.h"
#include "base/problem.h"
#include "commands/commands.h"
#include "library/sumwright.h"
#include "options/options.h"
#include "write/files.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COMMAND_RUN(ID, id, ...) [COMMAND_##ID] = command_##id,
static bool (*const runs[COMMAND_COUNT])(const Request *request,
                                         Problem *problem) = {COMMANDS(COMMAND_RUN)};

static void help(void) {
    puts("sumwright: adders and subtractors from gates, with the proof beside them\n\n"
         "usage: sumwright COMMAND [options]\n"
         "       sumwright --help | --version | COMMAND --help\n");
    for (int k = 0; k < COMMAND_COUNT; k++)
        printf("  %-10s %s\n", command_name((Command)k), command_summary((Command)k));
    puts("\nexit status: 0 done; 1 check: a design is wrong; 2 the command line or the unit is not "
         "valid;\n"
         "3 check: a design could not be tested; 4 the surroundings failed (no simulator, cannot\n"
         "write, no memory)");
}

static bool run_command(Command command, int argc, char **argv, Problem *problem) {
    Request *request = memory_zeroed(1, sizeof *request);
    bool good = options_parse(command, argc, argv, request, problem);
    if (good && request->help)
        options_help(command, stdout);
    else if (good)
        good = runs[command](request, problem);
    memory_free(request);
    return good;
}

static bool run(int argc, char **argv, Problem *problem) {
    if (argc < 2)
        return problem_set(problem, STATUS_INVALID,
                           "no command is given; name one, for example emit, see sumwright --help");
    if (strcmp(argv[1], "--help") == 0) {
        help();
        return true;
    }
    if (strcmp(argv[1], "--version") == 0) {
        printf("sumwright %s\n", sumwright_version());
        return true;
    }
    for (int k = 0; k < COMMAND_COUNT; k++)
        if (strcmp(argv[1], command_name((Command)k)) == 0)
            return run_command((Command)k, argc - 1, argv + 1, problem);
    return problem_set(problem, STATUS_INVALID, "there is no command %s; see sumwright --help",
                       problem_quote(argv[1]).text);
}

/* Nothing but temporary files is ever half done at such a point. */
static void no_memory(void *context) {
    (void)context;
    files_abandon_open();
    fputs("sumwright: error: out of memory; a narrower unit or fewer vectors need less\n", stderr);
    exit(STATUS_SURROUNDINGS);
}

/* A standard stream that is closed stays so in effect: no file that is opened takes its place, and
 * what is written there fails and is told. */
static void hold_standard_streams(void) {
    for (int stream = 0; stream <= 2; stream++)
        if (fcntl(stream, F_GETFD) == -1)
            open("/dev/null", stream == 0 ? O_WRONLY : O_RDONLY);
}

int main(int argc, char **argv) {
    hold_standard_streams();
    memory_on_lack(no_memory, NULL);
    Problem problem = {STATUS_DONE, ""};
    bool good = run(argc, argv, &problem);
    errno = 0;
    if (good && (fflush(stdout) != 0 || ferror(stdout)))
        good = problem_set(&problem, STATUS_SURROUNDINGS,
                           "cannot write to standard output (%s); give it somewhere to go",
                           strerror(errno));
    if (!good)
        fprintf(stderr, "sumwright: error: %s\n", problem.text);
    return (int)problem.status;
}
