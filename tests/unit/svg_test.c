/* The drawing writer: what a document and its shapes look like as text, what becomes of any text,
 * and that a drawing's file appears whole or not at all. */
#include "write/svg.h"

#include "unit/written.h"
#include "write/files.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void test_a_document_has_title_and_description(void **state) {
    (void)state;
    Written written;
    written_open(&written);
    svg_begin(written.out, 640, 480.5, "a < b", "one & two");
    svg_end(written.out);
    assert_written(&written,
                   "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                   "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"640\" "
                   "height=\"480.5\" viewBox=\"0 0 640 480.5\"\n"
                   "     font-family=\"Helvetica, Arial, 'DejaVu Sans', sans-serif\" "
                   "font-size=\"12\">\n"
                   "<title>a &lt; b</title>\n"
                   "<desc>one &amp; two</desc>\n"
                   "<rect x=\"0\" y=\"0\" width=\"640\" height=\"480.5\" fill=\"white\"/>\n"
                   "</svg>\n");
}

static void test_shapes_have_short_numbers(void **state) {
    (void)state;
    Written written;
    written_open(&written);
    svg_group(written.out, "stroke=\"black\"");
    svg_line(written.out, 0, -0.001, 1.0 / 3, 100, "");
    svg_circle(written.out, 1.25, 2.5, 3, "fill=\"none\"");
    svg_path(written.out, "fill=\"gray\"");
    svg_to(written.out, 'M', 0, 0);
    svg_to(written.out, 'L', 10, 5.555);
    svg_path_end(written.out, true);
    svg_group_end(written.out);
    assert_written(&written, "<g stroke=\"black\">\n"
                             "<line x1=\"0\" y1=\"0\" x2=\"0.33\" y2=\"100\"/>\n"
                             "<circle cx=\"1.25\" cy=\"2.5\" r=\"3\" fill=\"none\"/>\n"
                             "<path fill=\"gray\" d=\"M0 0L10 5.55Z\"/>\n"
                             "</g>\n");
}

/* XML 1.0, sections 2.2 and 2.4: the five entities; control characters, U+FFFE, U+FFFF and bytes
 * that are no UTF-8 are no characters. */
static void test_texts_are_escaped(void **state) {
    (void)state;
    Written written;
    written_open(&written);
    svg_text(written.out, 1, 2, "", "%s", "<g>&'\"\x01\xFF\xEF\xBF\xBF\xC3\xA9");
    assert_written(&written, "<text x=\"1\" y=\"2\">&lt;g&gt;&amp;&#39;&quot;\xEF\xBF\xBD"
                             "\xEF\xBF\xBD\xEF\xBF\xBD\xC3\xA9</text>\n");
}

static void test_widths_grow_with_the_text_and_its_size(void **state) {
    (void)state;
    assert_true(svg_text_width("", 12) == 0);
    assert_true(svg_text_width("ripple", 12) < svg_text_width("rippled", 12));
    assert_true(svg_text_width("ripple", 24) > 1.99 * svg_text_width("ripple", 12));
    assert_true(svg_text_width("lll", 12) < svg_text_width("mmm", 12));
}

/* ---- files -------------------------------------------------------------------------------- */

static char folder[] = "/tmp/sumwright-svg-XXXXXX";

static int make_folder(void **state) {
    (void)state;
    return mkdtemp(folder) == NULL ? -1 : chdir(folder);
}

static int remove_folder(void **state) {
    (void)state;
    unlink("chart.svg");
    rmdir("under");
    return chdir("/") == 0 ? rmdir(folder) : -1;
}

static void draw(const char *path, bool overwrite, const char *text, Problem *problem) {
    FILE *out = NULL;
    Files *files = files_open_one(path, overwrite, &out, problem);
    if (files == NULL)
        return;
    fputs(text, out);
    files_commit(files, problem);
}

static void assert_chart(const char *path, const char *expected) {
    char text[16] = "";
    FILE *in = fopen(path, "r");
    assert_non_null(in);
    assert_int_equal(fread(text, 1, sizeof text - 1, in), strlen(expected));
    assert_string_equal(text, expected);
    fclose(in);
}

static void test_one_file_by_its_path(void **state) {
    (void)state;
    Problem problem = {STATUS_DONE, ""};
    assert_int_equal(mkdir("under", 0777), 0);
    draw("chart.svg", false, "one", &problem);
    draw("under/../chart.svg", true, "two", &problem);
    char whole[64];
    snprintf(whole, sizeof whole, "%s/chart.svg", folder);
    assert_int_equal(problem.status, STATUS_DONE);
    assert_chart(whole, "two");
}

static void test_another_drawing_is_kept(void **state) {
    (void)state;
    Problem problem = {STATUS_DONE, ""};
    draw("chart.svg", false, "three", &problem);
    assert_int_equal(problem.status, STATUS_SURROUNDINGS);
    assert_non_null(strstr(problem.text, "--overwrite"));
    assert_chart("chart.svg", "two");
}

static void test_paths_that_name_no_file_are_refused(void **state) {
    (void)state;
    static const char *const paths[] = {"", "/", "under/", "missing/chart.svg", "under"};
    for (size_t k = 0; k < sizeof paths / sizeof paths[0]; k++) {
        Problem problem = {STATUS_DONE, ""};
        draw(paths[k], true, "text", &problem);
        assert_int_not_equal(problem.status, STATUS_DONE);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_document_has_title_and_description),
        cmocka_unit_test(test_shapes_have_short_numbers),
        cmocka_unit_test(test_texts_are_escaped),
        cmocka_unit_test(test_widths_grow_with_the_text_and_its_size),
        cmocka_unit_test(test_one_file_by_its_path),
        cmocka_unit_test(test_another_drawing_is_kept),
        cmocka_unit_test(test_paths_that_name_no_file_are_refused),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
