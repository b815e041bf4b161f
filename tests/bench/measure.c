/* measure RUNS COMMAND ...: runs a command RUNS times with its output thrown away and prints the
 * least processor time (user and system, seconds) and the greatest peak memory (KiB) of the runs.
 * For tests/bench/run, which makes ratios of them. */
#define _DEFAULT_SOURCE /* wait4 */
#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

static double seconds(const struct timeval *time) {
    return (double)time->tv_sec + (double)time->tv_usec / 1e6;
}

static int run_once(char **command, struct rusage *usage) {
    posix_spawn_file_actions_t actions;
    pid_t child;
    int status;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    int failed = posix_spawnp(&child, command[0], &actions, NULL, command, environ);
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0 || wait4(child, &status, 0, usage) != child)
        return 1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1;
}

int main(int argc, char **argv) {
    if (argc < 3) {
        fputs("usage: measure RUNS COMMAND ...\n", stderr);
        return 2;
    }
    double best = 1e9;
    long memory = 0;
    for (int k = atoi(argv[1]); k > 0; k--) {
        struct rusage usage;
        if (run_once(argv + 2, &usage) != 0) {
            fprintf(stderr, "measure: %s failed\n", argv[2]);
            return 1;
        }
        double time = seconds(&usage.ru_utime) + seconds(&usage.ru_stime);
        best = time < best ? time : best;
        memory = usage.ru_maxrss > memory ? usage.ru_maxrss : memory;
    }
    printf("%.4f %ld\n", best, memory);
    return 0;
}
