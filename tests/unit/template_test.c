/* The template language, one small case after the other; then where templates come from. */
#include "write/template.h"

#include "write/embedded.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

/* The facts that all cases see. An invented scenario: the logger of a harbour's tide gauge has
 * registers for the observed and the predicted level in millimetres from datum. */
static Facts *gauge_facts(void) {
    Facts *facts = facts_new();
    facts_text(facts, "name", "%s", "gauge");
    facts_text(facts, "width", "%d", 16);
    facts_text(facts, "nothing", "%s", "");
    facts_text(facts, "lines", "%s", "one\n\ntwo\n");
    facts_text(facts, "pin.sense", "%s", "borrow");
    facts_flag(facts, "yes", true);
    facts_flag(facts, "no", false);
    facts_list(facts, "empty_list");
    static const char *const levels[] = {"observed", "predicted"};
    for (int i = 0; i < 2; i++) {
        Facts *row = facts_row(facts, "levels");
        facts_text(row, "level", "%s", levels[i]);
        facts_flag(row, "last", i == 1);
        for (int byte = 0; byte <= i; byte++)
            facts_text(facts_row(row, "bytes"), "byte", "%d", byte);
    }
    facts_text(facts_row(facts, "shadows"), "name", "%s", "row");
    return facts;
}

/* What a template puts out (to be freed); NULL after a problem. */
static char *filled(const char *text, size_t bytes, const Facts *facts, Problem *problem) {
    char *out = NULL;
    size_t length = 0;
    FILE *stream = open_memstream(&out, &length);
    assert_non_null(stream);
    bool done = template_fill_text("unit.v", text, bytes, facts, stream, problem);
    assert_int_equal(fclose(stream), 0);
    assert_int_equal(done, problem->status == STATUS_DONE);
    if (!done) {
        free(out);
        return NULL;
    }
    return out;
}

typedef struct {
    const char *text;
    const char *expected;
} Case;

static void assert_cases(const Case *cases, size_t count) {
    Facts *facts = gauge_facts();
    for (size_t i = 0; i < count; i++) {
        Problem problem = {0};
        char *out = filled(cases[i].text, strlen(cases[i].text), facts, &problem);
        assert_string_equal(problem.text, "");
        assert_non_null(out);
        assert_string_equal(out, cases[i].expected);
        free(out);
    }
    facts_free(facts);
}

#define ASSERT_CASES(cases) assert_cases(cases, sizeof(cases) / sizeof(cases)[0])

static void test_text_is_copied(void **state) {
    (void)state;
    static const Case cases[] = {
        {"", ""},
        {"\n", "\n"},
        {"assign x = a $ b; // 5 % of {$} $$\n", "assign x = a $ b; // 5 % of {$} $$\n"},
        {"no line end", "no line end\n"},
        {"one\r\ntwo\r\n", "one\ntwo\n"},
        {"a\rb\n", "a\rb\n"},
        {"\xef\xbb\xbfmark\n", "mark\n"},
        {"\xc3\xa4\n", "\xc3\xa4\n"},
    };
    ASSERT_CASES(cases);
}

static void test_placeholders_become_texts(void **state) {
    (void)state;
    static const Case cases[] = {
        {"module ${name};\n", "module gauge;\n"},
        {"${name}${width}$${name}\n", "gauge16$gauge\n"},
        {"[${pin.sense}]\n", "[borrow]\n"},
        {"x${nothing}y${nothing}\n", "xy\n"},
        {"${name}\r\n", "gauge\n"},
    };
    ASSERT_CASES(cases);
}

static void test_a_placeholder_alone_keeps_the_indentation(void **state) {
    (void)state;
    static const Case cases[] = {
        {"  ${lines}\n", "  one\n\n  two\n"},
        {"\t${lines}  \nend\n", "\tone\n\n\ttwo\nend\n"},
        {"  ${lines};\n", "  one\n\ntwo\n;\n"}, /* not alone: copied as it is */
        {"  ${name}\n", "  gauge\n"},
    };
    ASSERT_CASES(cases);
}

static void test_a_line_of_an_empty_fact_disappears(void **state) {
    (void)state;
    static const Case cases[] = {
        {"a\n  ${nothing}\nb\n", "a\nb\n"},
        {"a\n${nothing} \r\nb\n", "a\nb\n"},
        {"a\n${nothing}${nothing}\nb\n", "a\n\nb\n"}, /* two do not stand alone */
    };
    ASSERT_CASES(cases);
}

static void test_conditions(void **state) {
    (void)state;
    static const Case cases[] = {
        {"%if yes\na\n%end\nb\n", "a\nb\n"},
        {"%if no\na\n%end\nb\n", "b\n"},
        {"%if not no\na\n%end\n", "a\n"},
        {"%if not yes\na\n%end\n", ""},
        {"%if yes\na\n%else\nb\n%end\nc\n", "a\nc\n"},
        {"%if no\na\n%else\nb\n%end\nc\n", "b\nc\n"},
        {"%if name\na\n%end\n", "a\n"},
        {"%if nothing\na\n%end\n", ""},
        {"%if levels\na\n%end\n", "a\n"},
        {"%if empty_list\na\n%end\n", ""},
        {"\t%if yes \r\na\r\n  %end \r\n", "a\n"},
        {"%if yes\n%if no\na\n%else\nb\n%end\nc\n%else\nd\n%end\n", "b\nc\n"},
        {"%if no\n%if yes\na\n%else\nb\n%end\n%end\n", ""},
        {"%if no\n${unknown}\n%end\n", ""}, /* only kept lines are looked up */
        {"%if yes\na\n%end", "a\n"},
    };
    ASSERT_CASES(cases);
}

static void test_lists(void **state) {
    (void)state;
    static const Case cases[] = {
        {"%each levels\n${level}\n%end\n", "observed\npredicted\n"},
        {"%each empty_list\n${level}\n%end\nb\n", "b\n"},
        {"%each levels\n${name}\n%end\n", "gauge\ngauge\n"},         /* the owner's facts */
        {"%each shadows\n${name}\n%end\n${name}\n", "row\ngauge\n"}, /* the row's come first */
        {"%each levels\n%if last\n${level}\n%end\n%end\n", "predicted\n"},
        {"%each levels\n%each bytes\n${level}.${byte}\n%end\n%end\n",
         "observed.0\npredicted.0\npredicted.1\n"},
        {"%each levels\n%end\n", ""},
    };
    ASSERT_CASES(cases);
}

static void test_remarks_are_not_copied(void **state) {
    (void)state;
    static const Case cases[] = {
        {"%# said ${once}\na\n  %#\nb\n%#", "a\nb\n"},
        {"a %# no remark\n", "a %# no remark\n"},
    };
    ASSERT_CASES(cases);
}

static void test_mistakes_are_named_with_their_line(void **state) {
    (void)state;
    static const Case cases[] = {
        {"a\n${x}\n", "unit.v:2: unknown placeholder 'x'; known here: name, width, "},
        {"%each levels\n${x}\n%end", "unit.v:2: unknown placeholder 'x'; known here: level, last,"},
        {"%each shadows\n%end\n%each x\n%end", "unit.v:3: unknown list 'x'; known here: name, "},
        {"%if x\n%end", "unit.v:1: unknown fact 'x'; known here: name, "},
        {"${yes}", "unit.v:1: yes is a flag and has no text; use it in %if"},
        {"${levels}", "unit.v:1: levels is a list and has no text; use it in %each or %if"},
        {"%each yes\n%end", "unit.v:1: yes is not a list; use it in %if"},
        {"%each name\n%end", "unit.v:1: name is not a list; use it in a placeholder or %if"},
        {"a ${", "unit.v:1: broken placeholder '${'; write ${name}"},
        {"${}", "unit.v:1: broken placeholder '${}'; write ${name}"},
        {"${na me}", "unit.v:1: broken placeholder '${na me}'; write ${name}"},
        {"${name", "unit.v:1: broken placeholder '${name'; write ${name}"},
        {"\n\n%fi yes\n", "unit.v:3: unknown directive '%fi'; there are %if, "},
        {"%", "unit.v:1: unknown directive '%'; there are %if, "},
        {"% if yes\n%end", "unit.v:1: unknown directive '%'; there are %if, "},
        {"%If yes\n%end", "unit.v:1: unknown directive '%If'; there are %if, "},
        {"%if\n%end", "unit.v:1: %if takes one name, not ''; write %if name or %if not name"},
        {"%if not\n%end", "unit.v:1: %if takes one name, not ' not'; write %if name or"},
        {"%if not not\n%end", "unit.v:1: %if takes one name, not ' not not'; write %if name or"},
        {"%if yes no\n%end", "unit.v:1: %if takes one name, not ' yes no'; write %if name or"},
        {"%each not no\n%end", "unit.v:1: %each takes one name, not ' not no'; write %each name"},
        {"%if yes\n%else no\n%end", "unit.v:2: ' no' follows %else; it stands alone on its line"},
        {"%if yes\n%end if", "unit.v:2: ' if' follows %end; it stands alone on its line"},
        {"a\n%end", "unit.v:2: %end without its beginning; put %if or %each before it"},
        {"%else", "unit.v:1: %else without its beginning; put %if before it"},
        {"%each levels\n%else\n%end", "unit.v:2: %else belongs to no %if; line 1 is the %each"},
        {"%if yes\n%else\n%else\n%end", "unit.v:3: %else belongs to no %if; line 2 is the %else"},
        {"%if no\na", "unit.v:1: %if is never closed; put %end on a line of its own"},
        {"%if no\n%else\na", "unit.v:2: %else is never closed; put %end on a line of its own"},
        {"a\n%each levels\n", "unit.v:2: %each is never closed; put %end on a line of its own"},
        {"${\x1b[31m\n", "unit.v:1: broken placeholder '${?[31m'; write"},
    };
    Facts *facts = gauge_facts();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        Problem problem = {0};
        assert_null(filled(cases[i].text, strlen(cases[i].text), facts, &problem));
        problem.text[strnlen(cases[i].expected, sizeof problem.text)] = '\0';
        assert_string_equal(problem.text, cases[i].expected);
        assert_int_equal(problem.status, STATUS_INVALID);
    }
    facts_free(facts);
}

static void test_form_is_checked_before_anything_is_put_out(void **state) {
    (void)state;
    Problem problem = {0};
    char out[64] = "untouched";
    FILE *stream = fmemopen(out, sizeof out, "r+");
    assert_non_null(stream);
    static const char text[] = "first\n%if no\n${broken\n%end\n";
    Facts *facts = gauge_facts();
    assert_false(template_fill_text("unit.v", text, sizeof text - 1, facts, stream, &problem));
    fclose(stream);
    facts_free(facts);
    assert_string_equal(out, "untouched");
    assert_non_null(strstr(problem.text, "unit.v:3: "));
}

static void test_a_nul_byte_is_refused(void **state) {
    (void)state;
    Problem problem = {0};
    Facts *facts = gauge_facts();
    assert_null(filled("a\nb\0c\n", 6, facts, &problem));
    facts_free(facts);
    assert_string_equal(problem.text, "unit.v:2: a NUL byte; a template is plain text");
    assert_int_equal(problem.status, STATUS_INVALID);
}

/* depth times the opening line, a text line, depth times %end; to be freed. */
static char *nested(const char *opening, int depth) {
    char *text = NULL;
    size_t bytes = 0;
    FILE *stream = open_memstream(&text, &bytes);
    assert_non_null(stream);
    for (int i = 0; i < depth; i++)
        fprintf(stream, "%s\n", opening);
    fputs("deep\n", stream);
    for (int i = 0; i < depth; i++)
        fputs("%end\n", stream);
    fclose(stream);
    return text;
}

static void test_nesting_ends_at_the_stated_depth(void **state) {
    (void)state;
    Facts *facts = gauge_facts();
    static const char *const openings[] = {"%if yes", "%each shadows"};
    for (int i = 0; i < 2; i++) {
        Problem problem = {0};
        char *text = nested(openings[i], TEMPLATE_DEPTH_MAX);
        char *out = filled(text, strlen(text), facts, &problem);
        assert_non_null(out);
        assert_string_equal(out, "deep\n");
        free(out);
        free(text);

        text = nested(openings[i], TEMPLATE_DEPTH_MAX + 1);
        assert_null(filled(text, strlen(text), facts, &problem));
        assert_non_null(strstr(problem.text, "unit.v:65: %"));
        assert_non_null(strstr(problem.text, "nested too deep; 64 levels are allowed"));
        free(text);
    }
    facts_free(facts);
}

/* 2 to the power of 64 rounds, putting out nothing or a line each: neither may be waited for. */
static void test_loops_without_end_are_refused(void **state) {
    (void)state;
    Facts *facts = gauge_facts();
    char *text = nested("%each levels", TEMPLATE_DEPTH_MAX);
    FILE *out = fopen("/dev/null", "w");
    assert_non_null(out);
    for (int quiet = 0; quiet < 2; quiet++) {
        if (quiet)
            memcpy(strstr(text, "deep"), "%#  ", 4);
        Problem problem = {0};
        assert_false(template_fill_text("unit.v", text, strlen(text), facts, out, &problem));
        assert_non_null(strstr(problem.text, "more than 1024 MiB would be put out; are %each"));
        assert_int_equal(problem.status, STATUS_INVALID);
    }
    fclose(out);
    free(text);
    facts_free(facts);
}

/* Each of these asks for more than TEMPLATE_WORK_MAX in a way of its own: a long text in many rows,
 * a text of many lines behind many blanks, and loops that hold nothing. */
static void test_all_that_costs_time_counts_as_work(void **state) {
    (void)state;
    enum { ROWS = 5000, LONG = 300000 };
    static char letters[LONG + 1], lines[2 * ROWS + 1], indented[LONG + sizeof "${lines}"];
    memset(letters, 'x', LONG);
    for (int i = 0; i < ROWS; i++)
        memcpy(lines + 2 * (size_t)i, "x\n", 2);
    memset(indented, ' ', LONG);
    strcpy(indented + LONG, "${lines}");
    Facts *facts = facts_new();
    facts_text(facts, "letters", "%s", letters);
    facts_text(facts, "lines", "%s", lines);
    for (int i = 0; i < ROWS; i++)
        facts_row(facts, "rows");
    const char *const texts[] = {"%each rows\n${letters};\n%end", indented,
                                 "%each rows\n%each rows\n%end\n%end"};
    FILE *out = fopen("/dev/null", "w");
    assert_non_null(out);
    for (int i = 0; i < 3; i++) {
        Problem problem = {0};
        assert_false(
            template_fill_text("unit.v", texts[i], strlen(texts[i]), facts, out, &problem));
        assert_non_null(strstr(problem.text, "more than 1024 MiB would be put out"));
    }
    fclose(out);
    facts_free(facts);
}

static void test_facts_can_be_of_any_length_and_number(void **state) {
    (void)state;
    enum { LONG = 200000, ROWS = 5000 };
    char *letters = malloc(LONG + 1);
    assert_non_null(letters);
    memset(letters, 'x', LONG);
    letters[LONG] = '\0';
    Facts *facts = facts_new();
    facts_text(facts, "long", "%s", letters);
    for (int i = 0; i < ROWS; i++)
        facts_text(facts_row(facts, "rows"), "i", "%d", i);
    Problem problem = {0};
    static const char text[] = "${long}\n%each rows\n${i}\n%end\n";
    char *out = filled(text, sizeof text - 1, facts, &problem);
    assert_non_null(out);
    assert_memory_equal(out, letters, LONG);
    assert_memory_equal(out + LONG, "\n0\n1\n", 5);
    assert_string_equal(out + strlen(out) - 5, "4999\n");
    free(out);
    free(letters);
    facts_free(facts);
}

/* Rows of a list share the names that they have in common, and those alone. */
static void test_rows_may_have_different_facts(void **state) {
    (void)state;
    static const char *const rows[][4] = {
        {"a", "1", "b", "2"}, {"b", "3", "a", "4"}, {"aa", "5", "b", "6"}, {"a", "7", "c", "8"}};
    Facts *facts = facts_new();
    facts_text(facts, "a", "owner's");
    facts_adopt(facts, "b", strdup("adopted"), strlen("adopted"));
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        Facts *row = facts_row(facts, "rows");
        facts_join(row, rows[k][0], &rows[k][1], 1);
        facts_join(row, rows[k][2], &rows[k][3], 1);
    }
    Problem problem = {0};
    static const char text[] = "%each rows\n${a} ${b}\n%end\n";
    char *out = filled(text, sizeof text - 1, facts, &problem);
    assert_string_equal(out, "1 2\n4 3\nowner's 6\n7 adopted\n");
    free(out);
    facts_free(facts);
}

static void test_facts_can_be_redefined(void **state) {
    (void)state;
    Facts *facts = facts_new();
    facts_text(facts, "x", "%s", "text");
    facts_row(facts, "x");
    facts_list(facts, "x"); /* keeps the row */
    Problem problem = {0};
    char *out = filled("%each x\nrow\n%end\n", 17, facts, &problem);
    assert_string_equal(out, "row\n");
    free(out);
    facts_flag(facts, "x", true);
    facts_flag(facts, "x", false);
    out = filled("%if not x\nfalse\n%end\n", 21, facts, &problem);
    assert_string_equal(out, "false\n");
    free(out);
    facts_text(facts, "x", "%d", 1);
    facts_text(facts, "x", "%d%s", 2, "3");
    out = filled("${x}\n", 5, facts, &problem);
    assert_string_equal(out, "23\n");
    free(out);
    facts_free(facts);
    facts_free(NULL);
}

static void test_many_known_names_are_cut_in_the_message(void **state) {
    (void)state;
    Facts *facts = facts_new();
    for (int i = 0; i < 500; i++) {
        char name[16];
        snprintf(name, sizeof name, "fact%d", i);
        facts_flag(facts, name, true);
    }
    Problem problem = {0};
    assert_null(filled("${x}", 4, facts, &problem));
    assert_true(strlen(problem.text) < sizeof problem.text / 2 + 60);
    assert_string_equal(problem.text + strlen(problem.text) - 5, ", ...");
    facts_free(facts);
}

/* ---- where templates come from ------------------------------------------------------------- */

static char folder[64];

static const char *path(const char *name) {
    static char text[128];
    snprintf(text, sizeof text, "%s/%s", folder, name);
    return text;
}

static int make_folder(void **state) {
    (void)state;
    strcpy(folder, "/tmp/template_test_XXXXXX");
    return mkdtemp(folder) != NULL ? 0 : -1;
}

static int remove_folder(void **state) {
    (void)state;
    if (unlink(path("own.v")) != 0)
        rmdir(path("own.v"));
    return rmdir(folder);
}

static void put_file(const char *name, const char *text, size_t bytes) {
    FILE *file = fopen(path(name), "w");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, bytes, file), bytes);
    assert_int_equal(fclose(file), 0);
}

/* Fills a template from a folder, expecting a problem whose message holds these words. */
static void assert_refused(const char *from, const char *name, Status status, const char *words) {
    Problem problem = {0};
    Facts *facts = gauge_facts();
    FILE *out = fopen("/dev/null", "w");
    assert_non_null(out);
    assert_false(template_fill(&(Templates){from}, name, facts, out, &problem));
    fclose(out);
    facts_free(facts);
    assert_int_equal(problem.status, status);
    if (strstr(problem.text, words) == NULL)
        assert_string_equal(problem.text, words);
}

static char *filled_from(const char *from, const char *name) {
    char *text = NULL;
    size_t bytes = 0;
    FILE *out = open_memstream(&text, &bytes);
    assert_non_null(out);
    Problem problem = {0};
    Facts *facts = gauge_facts();
    bool done = template_fill(&(Templates){from}, name, facts, out, &problem);
    facts_free(facts);
    fclose(out);
    assert_string_equal(problem.text, "");
    assert_true(done);
    return text;
}

static void test_a_file_in_the_folder_takes_the_place(void **state) {
    (void)state;
    put_file("own.v", "own ${name}\n", 12);
    char *text = filled_from(folder, "own.v");
    assert_string_equal(text, "own gauge\n");
    free(text);
    put_file("own.v", "\n${x}\n", 6);
    assert_refused(folder, "own.v", STATUS_INVALID, "own.v:2: unknown placeholder 'x'");
}

/* Every embedded template is sound: it fills, or stops at a name that these facts lack. */
static void test_a_file_not_in_the_folder_is_the_embedded_one(void **state) {
    (void)state;
    for (const EmbeddedTemplate *t = embedded_templates; t->name != NULL; t++)
        for (int own_folder = 0; own_folder < 2; own_folder++) {
            Problem problem = {0};
            Facts *facts = facts_new();
            FILE *out = fopen("/dev/null", "w");
            assert_non_null(out);
            if (!template_fill(&(Templates){own_folder ? folder : NULL}, t->name, facts, out,
                               &problem))
                assert_non_null(strstr(problem.text, ": unknown "));
            fclose(out);
            facts_free(facts);
        }
    assert_refused(folder, "own.v", STATUS_INVALID, "no template of the name 'own.v'; put it into");
    assert_refused(NULL, "own.v", STATUS_INVALID, "no template of the name 'own.v'; put it into");
}

static void test_a_missing_folder_is_refused(void **state) {
    (void)state;
    assert_refused(path("own.v"), "unit.v", STATUS_INVALID,
                   ": No such file or directory; give a folder with --templates");
    assert_refused("", "unit.v", STATUS_INVALID, "cannot use templates folder ''");
    put_file("own.v", "", 0);
    assert_refused(path("own.v"), "unit.v", STATUS_INVALID,
                   ": Not a directory; give a folder with --templates");
}

static void test_what_is_no_plain_file_is_refused(void **state) {
    (void)state;
    static const char words[] = "it is not a plain file; a template is a plain file";
    assert_int_equal(mkdir(path("own.v"), 0700), 0);
    assert_refused(folder, "own.v", STATUS_SURROUNDINGS, words);
    rmdir(path("own.v"));
    assert_int_equal(mkfifo(path("own.v"), 0600), 0);
    assert_refused(folder, "own.v", STATUS_SURROUNDINGS, words);
    unlink(path("own.v"));
    assert_int_equal(symlink("/dev/zero", path("own.v")), 0);
    assert_refused(folder, "own.v", STATUS_SURROUNDINGS, words);
    unlink(path("own.v"));
    assert_int_equal(symlink("nowhere", path("own.v")), 0);
    assert_refused(folder, "own.v", STATUS_SURROUNDINGS, "No such file or directory; a template");
}

/* In a child that is not the superuser, whom no permission stops. */
static void test_a_file_that_may_not_be_read_is_refused(void **state) {
    (void)state;
    put_file("own.v", "a\n", 2);
    assert_int_equal(chmod(folder, 0755), 0);
    assert_int_equal(chmod(path("own.v"), 0), 0);
    pid_t child = fork();
    assert_int_not_equal(child, -1);
    if (child == 0) {
        enum { NOBODY = 65534 };
        if (getuid() == 0 && setuid(NOBODY) != 0)
            _exit(2);
        Problem problem = {0};
        bool done = template_fill(&(Templates){folder}, "own.v", NULL, stderr, &problem);
        _exit(!done && problem.status == STATUS_SURROUNDINGS &&
                      strstr(problem.text, "Permission denied") != NULL
                  ? 0
                  : 1);
    }
    int result;
    assert_int_equal(waitpid(child, &result, 0), child);
    assert_int_equal(result, 0);
}

static void test_a_file_over_the_stated_size_is_refused(void **state) {
    (void)state;
    char *text = malloc(TEMPLATE_FILE_MAX + 1);
    assert_non_null(text);
    memset(text, '\n', TEMPLATE_FILE_MAX + 1);
    put_file("own.v", text, TEMPLATE_FILE_MAX + 1);
    assert_refused(folder, "own.v", STATUS_INVALID, "is over 1024 KiB; shorten it");
    put_file("own.v", text, TEMPLATE_FILE_MAX);
    char *out = filled_from(folder, "own.v");
    assert_int_equal(strlen(out), TEMPLATE_FILE_MAX);
    free(out);
    free(text);
}

#define IN_FOLDER(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_text_is_copied),
        cmocka_unit_test(test_placeholders_become_texts),
        cmocka_unit_test(test_a_placeholder_alone_keeps_the_indentation),
        cmocka_unit_test(test_a_line_of_an_empty_fact_disappears),
        cmocka_unit_test(test_conditions),
        cmocka_unit_test(test_lists),
        cmocka_unit_test(test_remarks_are_not_copied),
        cmocka_unit_test(test_mistakes_are_named_with_their_line),
        cmocka_unit_test(test_form_is_checked_before_anything_is_put_out),
        cmocka_unit_test(test_a_nul_byte_is_refused),
        cmocka_unit_test(test_nesting_ends_at_the_stated_depth),
        cmocka_unit_test(test_loops_without_end_are_refused),
        cmocka_unit_test(test_all_that_costs_time_counts_as_work),
        cmocka_unit_test(test_facts_can_be_of_any_length_and_number),
        cmocka_unit_test(test_rows_may_have_different_facts),
        cmocka_unit_test(test_facts_can_be_redefined),
        cmocka_unit_test(test_many_known_names_are_cut_in_the_message),
        IN_FOLDER(test_a_file_in_the_folder_takes_the_place),
        IN_FOLDER(test_a_file_not_in_the_folder_is_the_embedded_one),
        IN_FOLDER(test_a_missing_folder_is_refused),
        IN_FOLDER(test_what_is_no_plain_file_is_refused),
        IN_FOLDER(test_a_file_that_may_not_be_read_is_refused),
        IN_FOLDER(test_a_file_over_the_stated_size_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
