/* Where the labels of the points in a drawing go: beside their points, none over another, over a
 * point or over the line that leads from a label to its point. */
#ifndef SUMWRIGHT_CHART_PLACE_H
#define SUMWRIGHT_CHART_PLACE_H

#include <stdbool.h>
#include <stddef.h>

typedef struct {
    double x, y, width, height; /* x, y: the corner with the least of both */
} Box;

typedef struct {
    double x, y;           /* the point */
    double radius;         /* of the mark that stands there */
    double width, height;  /* of its label */
    Box box;               /* the result: where the label goes */
    bool placed;           /* false: no room was found within the area */
    bool led;              /* the label is so far away that a line should lead to it: */
    double from_x, from_y; /* from the mark's edge */
    double to_x, to_y;     /* to the label's */
} Label;

/* Finds a place for every label within the area and off the obstacles, for the largest first
 * Where there is none, the obstacles are given up, then that a line keeps off the marks. */
void place_labels(Label *labels, size_t count, Box area, const Box *obstacle, size_t obstacles);

/* Do two boxes share more than an edge? */
bool place_overlaps(Box one, Box other);

#endif
