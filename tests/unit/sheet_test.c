/* The text of a worked example: one whole sheet as it must look, and what holds for every width of
 * words and of terminals. */
#include "workings.h"

static void looks(const char *line, unsigned columns, const char *expected) {
    char *sheet = sheet_of(worked(line), columns, false, false);
    if (strncmp(sheet, expected, strlen(expected)) != 0)
        fail_msg("%s at %u characters:\n%s", line, columns, sheet);
    free(sheet);
}

static void test_a_whole_sheet(void **state) {
    (void)state;
    const char *expected = "sub: a - b, added as a + not b + 1\n"
                           "addsub4, 4 bits\n"
                           "\n"
                           "             sign\n"
                           "column  out | 3 | 2  1  0\n"
                           "------------+---+---------\n"
                           "a           | 0 | 1  0  1  5\n"
                           "b           | 1 | 0  1  0  -6, unsigned 10\n"
                           "------------+---+---------\n"
                           "carry   (0) |(1)| 0  1  1 <- 1 first carry: sub lets a 1 enter\n"
                           "a           | 0 | 1  0  1\n"
                           "not b       | 0 | 1  0  1  every bit inverted\n"
                           "------------+---+---------\n"
                           "result      | 1 | 0  1  1  -5, unsigned 11\n"
                           "\n"
                           "verdict\n";
    looks("--width 4 --operation sub 5 -6", 80, expected);
    char *sheet = sheet_of(worked("--width 4 --operation sub 5 -6"), 80, false, false);
    assert_non_null(strstr(sheet, "\n\nnumbers    unsigned  two's complement\n"
                                  "  a               5                 5\n"
                                  "  b              10                -6\n"
                                  "  exact          -5                11\n"
                                  "  result         11                -5\n\n"));
    free(sheet);
}

/* Nothing is inverted: the operands are shown once. Saturation: the sum, then the result. */
static void test_rows_that_differ(void **state) {
    (void)state;
    looks("--width 4 --overflow saturate-signed 5 6", 80,
          "add: a + b, added as a + b + 0\n"
          "addsub4, 4 bits\n"
          "\n"
          "             sign\n"
          "column  out | 3 | 2  1  0\n"
          "------------+---+---------\n"
          "carry   (0) |(1)| 0  0  0 <- 0 first carry: add lets no carry enter\n"
          "a           | 0 | 1  0  1  5\n"
          "b           | 0 | 1  1  0  6\n"
          "------------+---+---------\n"
          "sum         | 1 | 0  1  1  -5, unsigned 11\n"
          "result      | 0 | 1  1  1  7\n");
    looks("--width 4 --operations dec 5", 80,
          "dec: a - 1, added as a + not 0 + 0\n"
          "dec4, 4 bits\n"
          "\n"
          "             sign\n"
          "column  out | 3 | 2  1  0\n"
          "------------+---+---------\n"
          "carry   (1) |(1)| 1  1  0 <- 0 first carry: dec lets no carry enter\n"
          "a           | 0 | 1  0  1  5\n"
          "not 0       | 1 | 1  1  1  a 1 in every column\n"
          "------------+---+---------\n"
          "result      | 0 | 1  0  0  4\n");
}

static void test_one_column(void **state) {
    (void)state;
    looks("--width 1 1 1", 80,
          "add: a + b, added as a + b + 0\n"
          "addsub1, 1 bit\n"
          "\n"
          "             sign\n"
          "column  out | 0 |\n"
          "------------+---+\n"
          "carry   (1) |(0)|<- 0 first carry: add lets no carry enter\n");
}

static void test_folded(void **state) {
    (void)state;
    looks("--width 8 100 28", 34,
          "add: a + b, added as a + b + 0\n"
          "addsub8, 8 bits\n"
          "\n"
          "columns 3 to 0\n"
          "column  out | 3  2  1  0\n"
          "------------+------------\n"
          "carry    1  | 1  0  0  0 <- 0\n"
          "a           | 0  1  0  0\n"
          "b           | 1  1  0  0\n"
          "------------+------------\n"
          "result      | 0  0  0  0\n"
          "\n"
          "columns 7 to 4, which the carry\n"
          "out of column 3 enters\n"
          "             sign\n"
          "column  out | 7 | 6  5  4\n"
          "------------+---+---------\n"
          "carry   (0) |(1)| 1  1  1 <- 1\n"
          "a           | 0 | 1  1  0\n"
          "b           | 0 | 0  0  1\n"
          "------------+---+---------\n"
          "result      | 1 | 0  0  0\n");
}

static void test_steps_when_asked(void **state) {
    (void)state;
    char *sheet = sheet_of(worked("--width 2 1 1"), 80, false, true);
    assert_non_null(strstr(sheet, "\n\nsteps, from the lowest column up\n"
                                  "  column 0: 1 + 1 + carry 0 = 0, carry 1\n"
                                  "  column 1 (sign): 0 + 0 + carry 1 = 1, carry 0\n\nverdict\n"));
    free(sheet);
    sheet = sheet_of(worked("--width 2 1 1"), 80, false, false);
    assert_null(strstr(sheet, "steps"));
    free(sheet);
}

/* No line is longer than the terminal, none ends in blanks, all is printable. */
static void holds(const char *sheet, unsigned columns) {
    for (const char *line = sheet; *line != '\0';) {
        size_t length = strcspn(line, "\n");
        if (length > columns)
            fail_msg("%zu characters, not %u: %.*s", length, columns, (int)length, line);
        for (size_t i = 0; i < length; i++)
            assert_in_range(line[i], ' ', '~');
        assert_true(length == 0 || line[length - 1] != ' ');
        assert_int_equal(line[length], '\n');
        line += length + 1;
    }
}

static void test_every_width_on_every_terminal(void **state) {
    (void)state;
    const unsigned columns[] = {28, 29, 31, 40, 79, 80, 81, 132, 10000};
    for (unsigned width = 1; width <= 130; width += width < 36 ? 1 : 31) {
        char line[128];
        snprintf(line, sizeof line,
                 "--width %u --flags all --operations add,sbc,neg --operation %s", width,
                 width % 2 == 0 ? "sbc -1 0" : "neg -1");
        for (size_t k = 0; k < sizeof columns / sizeof *columns; k++) {
            char *sheet = sheet_of(worked(line), columns[k], false, true);
            holds(sheet, columns[k]);
            free(sheet);
        }
    }
    char *sheet = sheet_of(worked("--width 4096 -1 -1"), 80, false, true);
    holds(sheet, 80);
    free(sheet);
}

/* Without its colours a coloured sheet is the plain one. */
static void test_colour_adds_nothing(void **state) {
    (void)state;
    const Working *working = worked("--operation sub --flags all 100 -50");
    char *plain = sheet_of(working, 80, false, true);
    char *coloured = sheet_of(working, 80, true, true);
    assert_null(strchr(plain, '\033'));
    assert_non_null(strstr(coloured, "\033[1;31mOVERFLOW:\033[0m"));
    char *to = coloured;
    for (const char *from = coloured; *from != '\0';) {
        if (*from == '\033')
            from += strcspn(from, "m") + 1;
        else
            *to++ = *from++;
    }
    *to = '\0';
    assert_string_equal(coloured, plain);
    free(plain);
    free(coloured);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_whole_sheet),
        cmocka_unit_test(test_rows_that_differ),
        cmocka_unit_test(test_one_column),
        cmocka_unit_test(test_folded),
        cmocka_unit_test(test_steps_when_asked),
        cmocka_unit_test(test_every_width_on_every_terminal),
        cmocka_unit_test(test_colour_adds_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
