/* Labels keep off one another, off the marks and inside their area, however the points lie. */
#include "chart/place.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

enum { MOST = 40 };

static const Box area = {60, 30, 420, 640};

/* The next of a fixed row of numbers that look random, 0 ... 1 (a linear congruential generator
 * with the multiplier of "Numerical Recipes"; from memory). */
static double next(uint32_t *seed) {
    *seed = *seed * UINT32_C(1664525) + UINT32_C(1013904223);
    return (double)(*seed >> 8) / (1 << 24);
}

static Box mark_of(const Label *label) {
    return (Box){label->x - label->radius, label->y - label->radius, 2 * label->radius,
                 2 * label->radius};
}

static void assert_apart(Label *labels, size_t count) {
    place_labels(labels, count, area, NULL, 0);
    for (size_t k = 0; k < count; k++) {
        Box box = labels[k].box;
        assert_true(labels[k].placed);
        assert_true(box.x >= area.x && box.x + box.width <= area.x + area.width);
        assert_true(box.y >= area.y && box.y + box.height <= area.y + area.height);
        for (size_t other = 0; other < count; other++) {
            assert_false(place_overlaps(box, mark_of(&labels[other])));
            if (other != k)
                assert_false(place_overlaps(box, labels[other].box));
        }
    }
}

static void test_boxes_overlap_by_more_than_an_edge(void **state) {
    (void)state;
    Box box = {0, 0, 10, 5};
    assert_true(place_overlaps(box, (Box){9, 4, 10, 5}));
    assert_true(place_overlaps(box, (Box){2, 2, 1, 1}));
    assert_false(place_overlaps(box, (Box){10, 0, 10, 5}));
    assert_false(place_overlaps(box, (Box){0, 5, 10, 5}));
}

static void test_scattered_points(void **state) {
    (void)state;
    uint32_t seed = 1;
    for (int round = 0; round < 50; round++) {
        Label labels[MOST];
        for (size_t k = 0; k < MOST; k++)
            labels[k] = (Label){.x = area.x + 6 + next(&seed) * (area.width - 12),
                                .y = area.y + 6 + next(&seed) * (area.height - 12),
                                .radius = 6,
                                .width = 30 + 50 * next(&seed),
                                .height = 14};
        assert_apart(labels, MOST);
    }
}

/* As close as marks are on a chart of forty depths: on a line, each a third over the last one. */
static void test_crowded_points(void **state) {
    (void)state;
    Label labels[MOST];
    for (size_t k = 0; k < MOST; k++)
        labels[k] = (Label){.x = 150 + 5.0 * (double)k,
                            .y = 300 + 2.0 * (double)k,
                            .radius = 6,
                            .width = 48,
                            .height = 14};
    assert_apart(labels, MOST);
}

static void test_a_corner(void **state) {
    (void)state;
    Label labels[] = {{.x = 66, .y = 36, .radius = 6, .width = 80, .height = 14},
                      {.x = 474, .y = 664, .radius = 6, .width = 80, .height = 56}};
    assert_apart(labels, 2);
}

/* Right beside the point there is an obstacle; on the left there is room. */
static void test_obstacles_are_kept_off_where_there_is_room(void **state) {
    (void)state;
    Box obstacle = {206, 100, 2, 400};
    Label label = {.x = 200, .y = 300, .radius = 6, .width = 60, .height = 14};
    place_labels(&label, 1, area, &obstacle, 1);
    assert_true(label.placed && !place_overlaps(label.box, obstacle));
    Box everywhere = area;
    place_labels(&label, 1, area, &everywhere, 1);
    assert_true(label.placed);
}

static void test_what_is_larger_than_the_area_has_no_place(void **state) {
    (void)state;
    Label label = {.x = 200, .y = 300, .radius = 6, .width = 500, .height = 14};
    place_labels(&label, 1, area, NULL, 0);
    assert_false(label.placed);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_boxes_overlap_by_more_than_an_edge),
        cmocka_unit_test(test_scattered_points),
        cmocka_unit_test(test_crowded_points),
        cmocka_unit_test(test_a_corner),
        cmocka_unit_test(test_obstacles_are_kept_off_where_there_is_room),
        cmocka_unit_test(test_what_is_larger_than_the_area_has_no_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
