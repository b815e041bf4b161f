/* Axes: linear or logarithmic, whole numbers at them, values within. */
#include "chart/axis.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void assert_ticks(double least, double most, bool logarithmic, const double *expected,
                         int count) {
    double tick[AXIS_TICKS_MAX];
    Axis axis = axis_make(least, most, 0, 400);
    assert_int_equal(axis.logarithmic, logarithmic);
    assert_int_equal(axis_ticks(&axis, tick), count);
    for (int k = 0; k < count; k++)
        assert_true(tick[k] == expected[k]);
}

static void test_ticks(void **state) {
    (void)state;
    assert_ticks(11, 20, false, (const double[]){10, 12, 14, 16, 18, 20}, 6);
    assert_ticks(56, 91, false, (const double[]){60, 70, 80, 90}, 4);
    assert_ticks(5, 5, false, (const double[]){4, 5, 6}, 3);
    assert_ticks(20, 135, true, (const double[]){20, 30, 40, 60, 80, 100, 150}, 7);
    assert_ticks(22, 2049, true, (const double[]){20, 50, 100, 200, 500, 1000, 2000}, 7);
}

/* Both ends stay inside, with room beyond; more is further along, downward or upward. */
static void test_values_stand_within(void **state) {
    (void)state;
    const double ends[][2] = {{1, 1}, {1, 2}, {3, 100000}, {448, 1283}};
    for (size_t k = 0; k < sizeof ends / sizeof ends[0]; k++) {
        Axis axis = axis_make(ends[k][0], ends[k][1], 400, 100);
        double low = axis_place(&axis, ends[k][0]), high = axis_place(&axis, ends[k][1]);
        assert_true(low < 400 && low >= high && high > 100);
        assert_true(ends[k][0] == ends[k][1] || low > high);
    }
}

/* At most as many as there is room for, ascending, for any whole numbers. */
static void test_ticks_ascend_for_any_values(void **state) {
    (void)state;
    for (double least = 1; least < 1e6; least *= 1.7)
        for (double most = least; most < 1e8; most = most * 1.3 + 1) {
            double tick[AXIS_TICKS_MAX];
            Axis axis = axis_make(least, most, 0, 400);
            int count = axis_ticks(&axis, tick);
            assert_in_range(count, 1, AXIS_TICKS_MAX - 1);
            for (int k = 1; k < count; k++)
                assert_true(tick[k] > tick[k - 1]);
        }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_ticks),
        cmocka_unit_test(test_values_stand_within),
        cmocka_unit_test(test_ticks_ascend_for_any_values),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
