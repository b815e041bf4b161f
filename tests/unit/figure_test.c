/* The geometry of the figure: nothing lies on anything that it does not belong to, at every width
 * from 1 to 40 and at wide ones. The shapes are read back from the document, an element a line as
 * write/svg.c writes them. That it is XML and renders is checked in tests/outside/. */
#include "workings.h"

#include "work/figure.h"
#include "write/svg.h"

enum { SHAPES_MAX = 4000, TEXT_MAX = 256 };

typedef enum { SHAPE_TEXT, SHAPE_CIRCLE, SHAPE_RECT, SHAPE_LINE } Kind;

/* A text's box, a circle by its middle and radius, a rectangle, or a straight line. */
typedef struct {
    Kind kind;
    double left, top, right, bottom;
    double radius;
    char text[TEXT_MAX];
} Shape;

typedef struct {
    double width, height;
    Shape shape[SHAPES_MAX];
    int count;
} Drawing;

/* ---- reading ------------------------------------------------------------------------------ */

static double number_of(const char *element, const char *name, double standard) {
    char pattern[32];
    snprintf(pattern, sizeof pattern, " %s=\"", name);
    const char *found = strstr(element, pattern);
    return found == NULL ? standard : strtod(found + strlen(pattern), NULL);
}

static Shape *add(Drawing *drawing, Kind kind, double left, double top, double right,
                  double bottom) {
    assert_true(drawing->count < SHAPES_MAX);
    Shape *shape = &drawing->shape[drawing->count++];
    *shape = (Shape){.kind = kind, .left = left, .top = top, .right = right, .bottom = bottom};
    return shape;
}

/* The words between > and <, with the entities as the characters that they stand for. */
static void content_of(const char *element, char *text) {
    static const char *const entities[][2] = {
        {"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}};
    size_t used = 0;
    for (const char *at = strchr(element, '>') + 1; *at != '<' && used < TEXT_MAX - 1;) {
        size_t length = 1;
        text[used] = *at;
        for (size_t k = 0; k < 5; k++)
            if (strncmp(at, entities[k][0], strlen(entities[k][0])) == 0) {
                length = strlen(entities[k][0]);
                text[used] = entities[k][1][0];
            }
        used++;
        at += length;
    }
    text[used] = '\0';
}

static void read_text(Drawing *drawing, const char *element) {
    char text[TEXT_MAX];
    content_of(element, text);
    double size = number_of(element, "font-size", 12), width = svg_text_width(text, size);
    double x = number_of(element, "x", 0), y = number_of(element, "y", 0);
    if (strstr(element, "text-anchor=\"middle\"") != NULL)
        x -= width / 2;
    if (strstr(element, "text-anchor=\"end\"") != NULL)
        x -= width;
    Shape *shape = add(drawing, SHAPE_TEXT, x, y - 0.75 * size, x + width, y + 0.22 * size);
    snprintf(shape->text, sizeof shape->text, "%s", text);
}

/* Each step of a path's outline. */
static void read_path(Drawing *drawing, const char *element) {
    const char *at = strstr(element, " d=\"") + 4;
    double x = 0, y = 0;
    while (*at == 'M' || *at == 'L') {
        bool drawn = *at == 'L';
        char *end;
        double next_x = strtod(at + 1, &end), next_y = strtod(end, &end);
        if (drawn)
            add(drawing, SHAPE_LINE, x, y, next_x, next_y);
        x = next_x;
        y = next_y;
        at = end;
    }
}

static void read_element(Drawing *drawing, const char *element) {
    double x = number_of(element, "x", 0), y = number_of(element, "y", 0);
    double cx = number_of(element, "cx", 0), cy = number_of(element, "cy", 0);
    if (strncmp(element, "<text", 5) == 0)
        read_text(drawing, element);
    if (strncmp(element, "<circle", 7) == 0)
        add(drawing, SHAPE_CIRCLE, cx, cy, cx, cy)->radius = number_of(element, "r", 0);
    if (strncmp(element, "<rect", 5) == 0)
        add(drawing, SHAPE_RECT, x, y, x + number_of(element, "width", 0),
            y + number_of(element, "height", 0));
    if (strncmp(element, "<line", 5) == 0)
        add(drawing, SHAPE_LINE, number_of(element, "x1", 0), number_of(element, "y1", 0),
            number_of(element, "x2", 0), number_of(element, "y2", 0));
    if (strncmp(element, "<path", 5) == 0)
        read_path(drawing, element);
}

/* The document of an example; the caller frees it. */
static char *document_of(const char *line) {
    char *text = NULL;
    size_t bytes = 0;
    FILE *out = open_memstream(&text, &bytes);
    assert_non_null(out);
    const Working *working = worked(line);
    Story story;
    story_tell(working, &story);
    figure_write(working, &story, false, out);
    story_free(&story);
    fclose(out);
    return text;
}

static void read_drawing(Drawing *drawing, const char *line) {
    char *document = document_of(line);
    drawing->count = 0;
    drawing->width = number_of(strstr(document, "<svg"), "width", 0);
    drawing->height = number_of(strstr(document, "<svg"), "height", 0);
    for (char *element = strtok(document, "\n"); element != NULL; element = strtok(NULL, "\n"))
        read_element(drawing, element);
    assert_int_equal(drawing->shape[0].kind, SHAPE_RECT); /* the ground */
    free(document);
}

/* ---- what lies on what -------------------------------------------------------------------- */

static double least(double x, double y) {
    return x < y ? x : y;
}

static double most(double x, double y) {
    return x > y ? x : y;
}

/* The box around a shape. */
static Shape box_of(const Shape *shape) {
    Shape box = *shape;
    box.left = least(shape->left, shape->right) - shape->radius;
    box.right = most(shape->left, shape->right) + shape->radius;
    box.top = least(shape->top, shape->bottom) - shape->radius;
    box.bottom = most(shape->top, shape->bottom) + shape->radius;
    return box;
}

static bool boxes_meet(const Shape *one, const Shape *other) {
    return one->left < other->right && other->left < one->right && one->top < other->bottom &&
           other->top < one->bottom;
}

static bool inside(const Shape *inner, const Shape *outer) {
    return inner->left >= outer->left && inner->right <= outer->right && inner->top >= outer->top &&
           inner->bottom <= outer->bottom;
}

/* Does a line come into a box, or within a radius of its middle? Tried at a hundred points. */
static bool line_meets(const Shape *line, const Shape *box) {
    double x = (box->left + box->right) / 2, y = (box->top + box->bottom) / 2;
    for (int k = 0; k <= 100; k++) {
        double at_x = line->left + (line->right - line->left) * k / 100;
        double at_y = line->top + (line->bottom - line->top) * k / 100;
        double dx = at_x - x, dy = at_y - y, radius = box->radius - 1; /* it may touch */
        if (box->radius > 0
                ? dx * dx + dy * dy < radius * radius
                : at_x > box->left && at_x < box->right && at_y > box->top && at_y < box->bottom)
            return true;
    }
    return false;
}

static bool same_middle(const Shape *one, const Shape *other) {
    Shape a = box_of(one), b = box_of(other);
    double dx = a.left + a.right - b.left - b.right, dy = a.top + a.bottom - b.top - b.bottom;
    return dx * dx < 1 && dy * dy < 16;
}

/* May these two lie as they do? */
static bool is_tidy(const Shape *one, const Shape *other) {
    Shape a = box_of(one), b = box_of(other);
    if (one->kind == SHAPE_LINE && other->kind == SHAPE_LINE)
        return true; /* heads lie on their lines */
    if (one->kind == SHAPE_LINE || other->kind == SHAPE_LINE) {
        const Shape *line = one->kind == SHAPE_LINE ? one : other;
        const Shape *thing = one->kind == SHAPE_LINE ? other : one;
        return thing->kind == SHAPE_RECT || !line_meets(line, thing);
    }
    if (!boxes_meet(&a, &b))
        return true;
    if (one->kind == SHAPE_RECT || other->kind == SHAPE_RECT)
        return inside(&a, &b) || inside(&b, &a);
    if (one->kind == SHAPE_TEXT && other->kind == SHAPE_TEXT)
        return false;
    return same_middle(one, other); /* a carry in its rings */
}

static void check(const char *line) {
    static Drawing drawing;
    read_drawing(&drawing, line);
    Shape ground = drawing.shape[0];
    assert_true(ground.right == drawing.width && ground.bottom == drawing.height);
    for (int k = 1; k < drawing.count; k++) {
        const Shape *shape = &drawing.shape[k];
        Shape box = box_of(shape);
        if (!inside(&box, &ground))
            fail_msg("%s: '%s' leaves the drawing", line, shape->text);
        for (int other = 1; other < k; other++)
            if (!is_tidy(shape, &drawing.shape[other]))
                fail_msg("%s: '%s' (%d at %.0f, %.0f) on '%s' (%d at %.0f, %.0f)", line,
                         shape->text, (int)shape->kind, box.left, box.top,
                         drawing.shape[other].text, (int)drawing.shape[other].kind,
                         drawing.shape[other].left, drawing.shape[other].top);
    }
}

static void test_every_operation(void **state) {
    (void)state;
    static const char *const lines[] = {
        "--operations add -1 1",    "--operations adc --cin 1 127 1",
        "--operations sub 100 -50", "--operations sbc --subtract-carry borrow --cin 1 0 0",
        "--operations rsb 5 -3",    "--operations inc 127",
        "--operations dec 0",       "--operations neg -128",
        "--operations pass 5",
    };
    for (size_t k = 0; k < sizeof lines / sizeof *lines; k++)
        for (int rule = 0; rule < OVERFLOW_COUNT; rule++) {
            char line[256];
            snprintf(line, sizeof line, "%s --flags all --overflow %s", lines[k],
                     overflow_name((Overflow)rule));
            check(line);
        }
}

static void test_every_width(void **state) {
    (void)state;
    for (unsigned width = 1; width <= 40; width++) {
        char line[128];
        snprintf(line, sizeof line, "--width %u --operation sub --flags all 0 -1", width);
        check(line);
    }
    check("--width 63 --operations neg 1");
    check("--width 64 -1 1");
    check("--width 65 -1 1");
    check("--width 1000 --operation sub 0 1");
    check("--width 4096 --operation sub --flags all 0 1");
}

static void test_long_names(void **state) {
    (void)state;
    check("--name the_surge_residual_of_a_small_harbour --port a=the_observed_level "
          "--port b=the_predicted_level_of_the_same_minute --port result=the_surge_residual "
          "--operation sub 5 7");
    char longest[UNIT_NAME_MAX + 1], line[2 * sizeof longest + 64];
    memset(longest, 'n', UNIT_NAME_MAX);
    longest[UNIT_NAME_MAX] = '\0';
    snprintf(line, sizeof line, "--width 3 --name %s --port a=%s 1 1", longest, longest + 1);
    check(line);
}

static int occurrences(const char *text, const char *word) {
    int count = 0;
    for (const char *at = strstr(text, word); at != NULL; at = strstr(at + 1, word))
        count++;
    return count;
}

/* One filled circle for each carry of 1, two double rings, one thick frame. */
static void test_marks(void **state) {
    (void)state;
    char *document = document_of("--operation sub 100 -50");
    assert_int_equal(occurrences(document, "<circle"), 9 + 2);
    assert_int_equal(occurrences(document, "r=\"11\" fill=\"black\""), 4);
    assert_int_equal(occurrences(document, "r=\"15\""), 2);
    assert_int_equal(occurrences(document, "fill=\"#e8e8e8\" stroke=\"black\""), 1);
    assert_non_null(strstr(document,
                           ">last carries, 0 out and 1 in: they differ, OVERFLOW in two&#39;s "
                           "complement</text>"));
    assert_non_null(strstr(document, "<title>sub: a - b, added as a + not b + 1</title>"));
    assert_non_null(strstr(document, "<desc>addsub8, 8 bits. Worked column by column. last "));
    free(document);
}

/* However wide the unit, a figure is two bands at most and small. */
static void test_wide_ones_are_abridged(void **state) {
    (void)state;
    char *document = document_of("--width 4096 --flags all -1 1");
    assert_true(strlen(document) < 65536);
    assert_non_null(
        strstr(document, ">columns 4079 to 16 are left out; they are worked alike</text>"));
    free(document);
    document = document_of("--width 64 -1 1");
    assert_null(strstr(document, "left out"));
    free(document);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_operation),
        cmocka_unit_test(test_every_width),
        cmocka_unit_test(test_long_names),
        cmocka_unit_test(test_marks),
        cmocka_unit_test(test_wide_ones_are_abridged),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
