/* An axis of a chart: from values to pixels, and the numbers that stand at it. */
#ifndef SUMWRIGHT_CHART_AXIS_H
#define SUMWRIGHT_CHART_AXIS_H

#include <stdbool.h>

enum { AXIS_TICKS_MAX = 32 };

typedef struct {
    bool logarithmic;
    double low, high; /* the ends of the scale: values, or their logarithms */
    double from, to;  /* in pixels, where these ends stand */
} Axis;

/* An axis for values from least to most, above 0, with some room beyond both; logarithmic where
 * they spread over more than a factor of 2.5. */
Axis axis_make(double least, double most, double from, double to);

/* Where a value stands, in pixels. */
double axis_place(const Axis *axis, double value);

/* Whole numbers to stand at the axis, ascending; how many. */
int axis_ticks(const Axis *axis, double tick[AXIS_TICKS_MAX]);

#endif
