/* See axis.h. */
#include "chart/axis.h"

#include <assert.h>
#include <math.h>

enum { TICKS_WANTED = 6 };

static const double spread_of_a_logarithm = 2.5, padding = 0.12;

static double on_scale(const Axis *axis, double value) {
    return axis->logarithmic ? log10(value) : value;
}

double axis_place(const Axis *axis, double value) {
    double part = (on_scale(axis, value) - axis->low) / (axis->high - axis->low);
    return axis->from + part * (axis->to - axis->from);
}

Axis axis_make(double least, double most, double from, double to) {
    assert(least > 0 && most >= least);
    Axis axis = {.logarithmic = most / least > spread_of_a_logarithm, .from = from, .to = to};
    axis.low = on_scale(&axis, least);
    axis.high = on_scale(&axis, most);
    double pad = padding * (axis.high - axis.low);
    pad = pad == 0 ? 1 : pad;
    axis.low -= pad;
    axis.high += pad;
    return axis;
}

/* 1, 2, 5, 10, 20, 50 and so on: the one after this. */
static double next_step(double step) {
    double decade = pow(10, floor(log10(step) + 1e-9));
    double first = step / decade;
    return first < 1.5 ? 2 * decade : first < 3 ? 5 * decade : 10 * decade;
}

static int linear_ticks(const Axis *axis, double tick[AXIS_TICKS_MAX]) {
    double step = 1;
    while ((axis->high - axis->low) / step > TICKS_WANTED)
        step = next_step(step);
    double first = fmax(0, ceil(axis->low / step) * step);
    int count = 0;
    while (count < AXIS_TICKS_MAX && first + count * step <= axis->high) {
        tick[count] = first + count * step;
        count++;
    }
    return count;
}

/* In every decade the same numbers: more of them where the axis has few decades. */
static int logarithmic_ticks(const Axis *axis, double tick[AXIS_TICKS_MAX]) {
    static const double few[] = {1, 2, 5, 0}, many[] = {1, 1.5, 2, 3, 4, 6, 8, 0};
    const double *first = axis->high - axis->low > 1.3 ? few : many;
    int count = 0;
    for (int decade = 0; decade <= axis->high; decade++)
        for (int k = 0; first[k] > 0 && count < AXIS_TICKS_MAX; k++) {
            double value = first[k] * pow(10, decade);
            double at = log10(value);
            if (at >= axis->low && at <= axis->high && value == floor(value))
                tick[count++] = value;
        }
    return count;
}

int axis_ticks(const Axis *axis, double tick[AXIS_TICKS_MAX]) {
    return axis->logarithmic ? logarithmic_ticks(axis, tick) : linear_ticks(axis, tick);
}
