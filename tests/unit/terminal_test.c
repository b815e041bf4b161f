/* The program on a terminal, which a pseudo-terminal stands for: the width it folds to, and when it
 * uses colours. */
#define _XOPEN_SOURCE 700 /* posix_openpt */

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <fcntl.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

enum { OUTPUT_BYTES = 65536 };

static char output[OUTPUT_BYTES];

static void set_or_unset(const char *name, const char *value) {
    if (value == NULL)
        unsetenv(name);
    else
        setenv(name, value, 1);
}

static void read_all(int from) {
    size_t used = 0;
    ssize_t got;
    while (used < OUTPUT_BYTES - 1 &&
           (got = read(from, output + used, OUTPUT_BYTES - 1 - used)) > 0)
        used += (size_t)got;
    output[used] = '\0';
}

/* The environment of a run; NULL: not set. */
typedef struct {
    unsigned short columns; /* of the terminal; 0: standard output is a pipe */
    const char *environment_columns, *no_colour, *term;
} Run;

static void start(const Run *run, int out) {
    set_or_unset("COLUMNS", run->environment_columns);
    set_or_unset("NO_COLOR", run->no_colour);
    set_or_unset("TERM", run->term);
    dup2(out, STDOUT_FILENO);
    execl(SUMWRIGHT_PROGRAM, SUMWRIGHT_PROGRAM, "work", "--width", "20", "5", "-7", (char *)NULL);
    _exit(127);
}

/* What the program prints. */
static void run(Run how) {
    int ends[2];
    if (how.columns > 0) {
        ends[0] = posix_openpt(O_RDWR | O_NOCTTY);
        assert_true(ends[0] >= 0 && grantpt(ends[0]) == 0 && unlockpt(ends[0]) == 0);
        ends[1] = open(ptsname(ends[0]), O_RDWR | O_NOCTTY);
        struct winsize size = {.ws_row = 24, .ws_col = how.columns};
        assert_int_equal(ioctl(ends[1], TIOCSWINSZ, &size), 0);
    } else {
        assert_int_equal(pipe(ends), 0);
    }
    pid_t child = fork();
    if (child == 0)
        start(&how, ends[1]);
    close(ends[1]);
    read_all(ends[0]);
    close(ends[0]);
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
}

static bool has(const char *text) {
    return strstr(output, text) != NULL;
}

/* 20 columns take 13 + 20 * 3 + 1 characters, and the arrow 4 more. */
static bool is_folded(void) {
    return has("columns 15 to 0");
}

static bool is_coloured(void) {
    return has("\033[");
}

static void test_the_terminal_tells_its_width(void **state) {
    (void)state;
    run((Run){78, NULL, NULL, "xterm"});
    assert_false(is_folded());
    run((Run){77, NULL, NULL, "xterm"});
    assert_true(is_folded());
}

static void test_without_a_terminal(void **state) {
    (void)state;
    run((Run){0, NULL, NULL, "xterm"});
    assert_false(is_folded());
    assert_false(is_coloured());
    assert_false(has("\r"));
}

static void test_columns_of_the_environment(void **state) {
    (void)state;
    run((Run){0, "77", NULL, "xterm"});
    assert_true(is_folded());
    run((Run){40, "100", NULL, "xterm"});
    assert_false(is_folded());
    static const char *const wrong[] = {"", "0", "many", "-40", "40x", "99999", "4294967336"};
    for (size_t k = 0; k < sizeof wrong / sizeof *wrong; k++) {
        run((Run){77, wrong[k], NULL, "xterm"});
        assert_true(is_folded());
        run((Run){0, wrong[k], NULL, "xterm"});
        assert_false(is_folded());
    }
}

static void test_colour(void **state) {
    (void)state;
    run((Run){80, NULL, NULL, "xterm"});
    assert_true(is_coloured());
    run((Run){80, NULL, "", "xterm"});
    assert_true(is_coloured());
    run((Run){80, NULL, "1", "xterm"});
    assert_false(is_coloured());
    run((Run){80, NULL, NULL, "dumb"});
    assert_false(is_coloured());
    run((Run){80, NULL, NULL, NULL});
    assert_false(is_coloured());
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_terminal_tells_its_width),
        cmocka_unit_test(test_without_a_terminal),
        cmocka_unit_test(test_columns_of_the_environment),
        cmocka_unit_test(test_colour),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
