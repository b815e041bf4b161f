/* A chart of points over two axes, drawn as SVG: panels side by side, each with its own axes, its
 * points with a mark and a label each, and the line that joins its front: the points that no other
 * undercuts in both directions. Marks differ by shape, and by being filled on the front and empty
 * off it, so that print in black and white loses nothing. */
#ifndef SUMWRIGHT_CHART_CHART_H
#define SUMWRIGHT_CHART_CHART_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum { CHART_SHAPES = 16 }; /* marks that differ */

typedef struct {
    double x, y; /* above 0 */
    const char *label;
    int shape; /* 0 ... CHART_SHAPES - 1 */
    bool front;
} ChartPoint;

typedef struct {
    char title[64];
    const ChartPoint *point;
    size_t count; /* 1 or more */
} ChartPanel;

typedef struct {
    const char *title;
    const char *description; /* for those who cannot see it */
    const char *x_title;     /* with the unit: "levels of two-input gates" */
    const char *y_title;
    const ChartPanel *panel;
    size_t count;
} Chart;

/* Whole numbers stand at the axes; an axis is logarithmic where its values spread over more than
 * a factor of 2.5. Points at one place share a mark, and their labels, each with its own mark
 * before it, stand together. */
void chart_write(const Chart *chart, FILE *out);

#endif
