/* Programs in the fence: how each may end, what it is given, and what is left of it. The programs are
 * those of the system, started without a shell. */
#include "check/run/fence.h"
#include "check/run/folder.h"

#include <fcntl.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#define MEGABYTE (UINT64_C(1) << 20)

static char *folder;

static int make_folder(void **state) {
    (void)state;
    Problem problem = {STATUS_DONE, ""};
    folder = folder_make(&problem);
    return folder == NULL;
}

static int remove_folder(void **state) {
    (void)state;
    folder_remove(folder);
    free(folder);
    return 0;
}

/* What a shell given this text ends as. */
static FenceEnd end_of(const char *text, FenceLimits limits) {
    char *shell = fence_find("sh");
    char name[] = "sh", option[] = "-c", script[512];
    Problem problem = {STATUS_DONE, ""};
    FenceEnd end = FENCE_DONE;
    strncpy(script, text, sizeof script - 1);
    script[sizeof script - 1] = '\0';
    char *const arguments[] = {name, option, script, NULL};
    assert_non_null(shell);
    if (!fence_run(folder, shell, arguments, "log", &limits, &end, &problem))
        fail_msg("%s", problem.text);
    free(shell);
    return end;
}

static const FenceLimits usual = {2, 512 * MEGABYTE, MEGABYTE, false};

static void assert_log(const char *expected) {
    char *path = folder_path(folder, "log"), text[256] = "";
    int file = open(path, O_RDONLY);
    assert_true(file != -1 && read(file, text, sizeof text - 1) >= 0);
    close(file);
    free(path);
    assert_string_equal(text, expected);
}

static void test_how_a_program_ends(void **state) {
    (void)state;
    assert_int_equal(end_of("exit 0", usual), FENCE_DONE);
    assert_int_equal(end_of("exit 3", usual), FENCE_FAILED);
    assert_int_equal(end_of("kill -SEGV $$", usual), FENCE_CRASHED);
    assert_int_equal(end_of("kill -KILL $$", usual), FENCE_CRASHED);
}

static void test_the_limits_end_it_and_say_which(void **state) {
    (void)state;
    FenceLimits short_time = {1, 512 * MEGABYTE, MEGABYTE, false};
    FenceLimits little = {2, 512 * MEGABYTE, 4096, false};
    assert_int_equal(end_of("while :; do :; done", short_time), FENCE_TIME);
    assert_int_equal(end_of("while :; do echo 0123456789; done", little), FENCE_OUTPUT);
}

static void test_it_is_given_little(void **state) {
    (void)state;
    setenv("SUMWRIGHT_SECRET", "told", 1);
    assert_int_equal(
        end_of("echo ${SUMWRIGHT_SECRET-none} $TMPDIR $LC_ALL; read x; echo $?", usual),
        FENCE_DONE);
    assert_log("none . C\n1\n");
    char expected[4200];
    snprintf(expected, sizeof expected, "%s\n", folder);
    assert_int_equal(end_of("pwd -P", usual), FENCE_DONE);
    assert_log(expected);
}

/* What it left running holds the end of a pipe that closes with the last of them. */
static void test_nothing_runs_on(void **state) {
    (void)state;
    int ends[2];
    char byte;
    assert_int_equal(pipe(ends), 0);
    assert_int_equal(end_of("sleep 100 & sleep 100 & exit 0", usual), FENCE_DONE);
    close(ends[1]);
    assert_int_equal(read(ends[0], &byte, 1), 0);
    close(ends[0]);
}

static void test_a_program_that_is_not_there(void **state) {
    (void)state;
    Problem problem = {STATUS_DONE, ""};
    FenceEnd end = FENCE_DONE;
    char name[] = "nothing";
    char *const arguments[] = {name, NULL};
    assert_null(fence_find("no-such-program-anywhere"));
    assert_false(fence_run(folder, "/nowhere/nothing", arguments, "log", &usual, &end, &problem));
    assert_int_equal(problem.status, STATUS_SURROUNDINGS);
    assert_non_null(strstr(problem.text, "cannot start '/nowhere/nothing'"));
}

static void test_where_no_process_can_be_made_it_says_so(void **state) {
    (void)state;
    pid_t child = fork();
    if (child == 0) { /* root has no such limit: then there is nothing to see */
        struct rlimit none = {0, 0};
        Problem problem = {STATUS_DONE, ""};
        FenceEnd end = FENCE_DONE;
        char name[] = "sh", option[] = "-c", text[] = "exit 0";
        char *const arguments[] = {name, option, text, NULL};
        char *shell = fence_find("sh");
        setrlimit(RLIMIT_NPROC, &none);
        bool good = fence_run(folder, shell, arguments, "log", &usual, &end, &problem);
        free(shell);
        _exit(good || problem.status == STATUS_SURROUNDINGS ? 0 : 1);
    }
    int status = 1;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
}

/* A process with the limits of a check ends by the first of them, SIGXCPU, which tells the reason. */
static void test_this_programs_own_time_is_limited(void **state) {
    (void)state;
    pid_t child = fork();
    if (child == 0) {
        FenceLimits limits = {1, 512 * MEGABYTE, MEGABYTE, false};
        fence_limit_self(&limits);
        for (volatile unsigned k = 0;; k++)
            continue;
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGXCPU);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_how_a_program_ends),
        cmocka_unit_test(test_the_limits_end_it_and_say_which),
        cmocka_unit_test(test_it_is_given_little),
        cmocka_unit_test(test_nothing_runs_on),
        cmocka_unit_test(test_a_program_that_is_not_there),
        cmocka_unit_test(test_where_no_process_can_be_made_it_says_so),
        cmocka_unit_test(test_this_programs_own_time_is_limited),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
