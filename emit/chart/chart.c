/* See chart.h. */
#include "chart/chart.h"

#include "base/memory.h"
#include "chart/axis.h"
#include "chart/place.h"
#include "write/svg.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Pixels. */
enum {
    MARGIN = 16,
    AXIS_ROOM = 62, /* left of a plot: the numbers and the axis's title */
    FOOT_ROOM = 50, /* below it */
    HEAD_ROOM = 30, /* above it: the panel's title */
    PLOT_WIDTH = 420,
    PLOT_HEIGHT = 300,
    PANEL_WIDTH = AXIS_ROOM + PLOT_WIDTH + 2 * MARGIN,
    TITLE_SIZE = 15,
    TEXT_SIZE = 12,
    NUMBER_SIZE = 11,
    MARK_RADIUS = 5,
};

/* ---- a panel ------------------------------------------------------------------------------- */

typedef struct {
    const ChartPanel *panel;
    Box plot;
    Axis x, y;
} Place;

static void find_axes(Place *place) {
    const ChartPanel *panel = place->panel;
    assert(panel->count > 0);
    double least_x = panel->point[0].x, most_x = least_x;
    double least_y = panel->point[0].y, most_y = least_y;
    for (size_t k = 1; k < panel->count; k++) {
        least_x = fmin(least_x, panel->point[k].x);
        most_x = fmax(most_x, panel->point[k].x);
        least_y = fmin(least_y, panel->point[k].y);
        most_y = fmax(most_y, panel->point[k].y);
    }
    Box plot = place->plot;
    place->x = axis_make(least_x, most_x, plot.x, plot.x + plot.width);
    place->y = axis_make(least_y, most_y, plot.y + plot.height, plot.y);
}

static void draw_axes(const Place *place, const Chart *chart, FILE *out) {
    Box plot = place->plot;
    double tick[AXIS_TICKS_MAX];
    double right = plot.x + plot.width, bottom = plot.y + plot.height;
    svg_group(out, "stroke=\"#d0d0d0\"");
    for (int k = axis_ticks(&place->x, tick); k-- > 0;)
        svg_line(out, axis_place(&place->x, tick[k]), plot.y, axis_place(&place->x, tick[k]),
                 bottom, "");
    for (int k = axis_ticks(&place->y, tick); k-- > 0;)
        svg_line(out, plot.x, axis_place(&place->y, tick[k]), right, axis_place(&place->y, tick[k]),
                 "");
    svg_group_end(out);
    svg_rect(out, plot.x, plot.y, plot.width, plot.height, "fill=\"none\" stroke=\"black\"");
    svg_group(out, "font-size=\"11\" text-anchor=\"middle\"");
    for (int k = axis_ticks(&place->x, tick); k-- > 0;)
        svg_text(out, axis_place(&place->x, tick[k]), bottom + 15, "", "%.0f", tick[k]);
    svg_group_end(out);
    svg_group(out, "font-size=\"11\" text-anchor=\"end\"");
    for (int k = axis_ticks(&place->y, tick); k-- > 0;)
        svg_text(out, plot.x - 6, axis_place(&place->y, tick[k]) + 4, "", "%.0f", tick[k]);
    svg_group_end(out);
    svg_text(out, plot.x + plot.width / 2, bottom + 33, "text-anchor=\"middle\"", "%s%s",
             chart->x_title, place->x.logarithmic ? ", logarithmic" : "");
    char *turned = memory_text("text-anchor=\"middle\" transform=\"rotate(-90 %.1f %.1f)\"",
                               plot.x - 46, plot.y + plot.height / 2);
    svg_text(out, plot.x - 46, plot.y + plot.height / 2, turned, "%s%s", chart->y_title,
             place->y.logarithmic ? ", logarithmic" : "");
    memory_free(turned);
}

static int by_x(const void *one, const void *other) {
    const ChartPoint *left = *(const ChartPoint *const *)one;
    const ChartPoint *right = *(const ChartPoint *const *)other;
    return left->x < right->x ? -1 : left->x > right->x;
}

/* The first point that stands where this one does. */
static size_t first_at(const ChartPanel *panel, size_t which) {
    size_t first = 0;
    while (panel->point[first].x != panel->point[which].x ||
           panel->point[first].y != panel->point[which].y)
        first++;
    return first;
}

/* The edge of what the front's points undercut: to the right, then down, from each to the next.
 * Fills segment, of twice as many as there are points, with the lines drawn; how many. */
static size_t draw_front(const Place *place, Box *segment, FILE *out) {
    const ChartPanel *panel = place->panel;
    const ChartPoint **front = memory_zeroed(panel->count, sizeof *front);
    size_t count = 0, segments = 0;
    for (size_t k = 0; k < panel->count; k++)
        if (panel->point[k].front && first_at(panel, k) == k)
            front[count++] = &panel->point[k];
    qsort(front, count, sizeof *front, by_x);
    for (size_t k = 1; k < count; k++) {
        double left = axis_place(&place->x, front[k - 1]->x);
        double right = axis_place(&place->x, front[k]->x);
        double above = axis_place(&place->y, front[k - 1]->y);
        double below = axis_place(&place->y, front[k]->y);
        segment[segments++] = (Box){left, above - 1, right - left, 2};
        segment[segments++] = (Box){right - 1, above, 2, below - above};
        svg_path(out, "fill=\"none\" stroke=\"black\" stroke-dasharray=\"5 3\"");
        svg_to(out, 'M', left, above);
        svg_to(out, 'L', right, above);
        svg_to(out, 'L', right, below);
        svg_path_end(out, false);
    }
    memory_free(front);
    return segments;
}

/* ---- marks --------------------------------------------------------------------------------- */

enum { CORNERS_MAX = 12 };

/* Corners in units of MARK_RADIUS, y downward; shape 0 is a circle. */
static const struct {
    int count;
    double corner[2 * CORNERS_MAX]; /* x, y, x, y and so on */
} shapes[CHART_SHAPES] = {
    {0, {0}},
    /* star */
    {10, {0, -1.2, 0.3,  -0.4, 1.15,  -0.37, 0.48,  0.15,  0.7,  0.97,
          0, 0.5,  -0.7, 0.97, -0.48, 0.15,  -1.15, -0.37, -0.3, -0.4}},
    /* triangle to the right, to the left */
    {3, {-0.8, -1, 1.1, 0, -0.8, 1}},
    {3, {0.8, -1, -1.1, 0, 0.8, 1}},
    /* square */
    {4, {-0.85, -0.85, 0.85, -0.85, 0.85, 0.85, -0.85, 0.85}},
    /* triangle upward */
    {3, {-1, 0.8, 0, -1.1, 1, 0.8}},
    /* diamond */
    {4, {0, -1.2, 1.2, 0, 0, 1.2, -1.2, 0}},
    /* triangle downward */
    {3, {-1, -0.8, 0, 1.1, 1, -0.8}},
    /* hexagon */
    {6, {-0.55, -0.95, 0.55, -0.95, 1.1, 0, 0.55, 0.95, -0.55, 0.95, -1.1, 0}},
    /* upright and slanting cross */
    {12, {-0.4, -1.1, 0.4,  -1.1, 0.4,  -0.4, 1.1,  -0.4, 1.1,  0.4,  0.4,  0.4,
          0.4,  1.1,  -0.4, 1.1,  -0.4, 0.4,  -1.1, 0.4,  -1.1, -0.4, -0.4, -0.4}},
    {12, {0, -0.5, 0.55,  -1.05, 1.05,  -0.55, 0.5,  0, 1.05,  0.55,  0.55,  1.05,
          0, 0.5,  -0.55, 1.05,  -1.05, 0.55,  -0.5, 0, -1.05, -0.55, -0.55, -1.05}},
    /* bar, upright and flat */
    {4, {-0.45, -1.1, 0.45, -1.1, 0.45, 1.1, -0.45, 1.1}},
    {4, {-1.1, -0.45, 1.1, -0.45, 1.1, 0.45, -1.1, 0.45}},
    /* hourglass, upright and lying */
    {6, {-1, -1, 1, -1, 0.25, 0, 1, 1, -1, 1, -0.25, 0}},
    {6, {-1, -1, 0, -0.25, 1, -1, 1, 1, 0, 0.25, -1, 1}},
    /* pentagon */
    {5, {0, -1.1, 1.05, -0.35, 0.65, 0.9, -0.65, 0.9, -1.05, -0.35}},
};

static void draw_mark(double x, double y, int shape, bool front, FILE *out) {
    assert(shape >= 0 && shape < CHART_SHAPES);
    const char *attributes = front ? "fill=\"black\" stroke=\"black\""
                                   : "fill=\"white\" fill-opacity=\"0.6\" stroke=\"black\"";
    if (shapes[shape].count == 0) {
        svg_circle(out, x, y, MARK_RADIUS, attributes);
        return;
    }
    svg_path(out, attributes);
    for (int k = 0; k < shapes[shape].count; k++)
        svg_to(out, k == 0 ? 'M' : 'L', x + MARK_RADIUS * shapes[shape].corner[2 * (size_t)k],
               y + MARK_RADIUS * shapes[shape].corner[2 * (size_t)k + 1]);
    svg_path_end(out, true);
}

/* ---- points -------------------------------------------------------------------------------- */

enum { LINE = TEXT_SIZE + 2, KEY_ROOM = 15 }; /* of a label: a line, and the mark before it */

/* The labels of all points at a place, one below another: a Label for the first of them. */
static size_t make_labels(const Place *place, Label *labels, size_t *first) {
    const ChartPanel *panel = place->panel;
    size_t count = 0;
    for (size_t k = 0; k < panel->count; k++) {
        const ChartPoint *point = &panel->point[k];
        double width = svg_text_width(point->label, NUMBER_SIZE);
        size_t at = 0;
        while (at < count && first[at] != first_at(panel, k))
            at++;
        if (at == count) {
            first[count++] = k;
            labels[at] = (Label){.x = axis_place(&place->x, point->x),
                                 .y = axis_place(&place->y, point->y),
                                 .radius = 1.2 * MARK_RADIUS};
        }
        labels[at].width = fmax(labels[at].width, width);
        labels[at].height += LINE;
    }
    for (size_t at = 0; at < count; at++)
        if (labels[at].height > LINE)
            labels[at].width += KEY_ROOM;
    return count;
}

/* One line, or a line a point with its mark before it. */
static void draw_label(const ChartPanel *panel, const Label *label, size_t first, FILE *out) {
    bool shared = label->height > LINE;
    double y = label->box.y;
    for (size_t k = first; k < panel->count; k++) {
        const ChartPoint *point = &panel->point[k];
        if (first_at(panel, k) != first)
            continue;
        if (shared)
            draw_mark(label->box.x + MARK_RADIUS + 1, y + LINE / 2.0, point->shape, point->front,
                      out);
        double middle = label->box.x + label->box.width / 2;
        svg_text(out, shared ? label->box.x + KEY_ROOM : middle, y + NUMBER_SIZE,
                 shared ? "" : "text-anchor=\"middle\"", "%s", point->label);
        y += LINE;
    }
}

static void draw_points(const Place *place, const Box *front, size_t fronts, FILE *out) {
    const ChartPanel *panel = place->panel;
    Label *labels = memory_zeroed(panel->count, sizeof *labels);
    size_t *first = memory_zeroed(panel->count, sizeof *first);
    size_t count = make_labels(place, labels, first);
    place_labels(labels, count, place->plot, front, fronts);
    svg_group(out, "stroke=\"#808080\" stroke-width=\"0.7\"");
    for (size_t k = 0; k < count; k++)
        if (labels[k].placed && labels[k].led)
            svg_line(out, labels[k].from_x, labels[k].from_y, labels[k].to_x, labels[k].to_y, "");
    svg_group_end(out);
    for (size_t k = 0; k < count; k++)
        draw_mark(labels[k].x, labels[k].y, panel->point[first[k]].shape,
                  panel->point[first[k]].front, out);
    svg_group(out, "font-size=\"11\"");
    for (size_t k = 0; k < count; k++)
        if (labels[k].placed)
            draw_label(panel, &labels[k], first[k], out);
    svg_group_end(out);
    memory_free(labels);
    memory_free(first);
}

static void draw_panel(const Chart *chart, const ChartPanel *panel, Box plot, FILE *out) {
    Place place = {.panel = panel, .plot = plot};
    Box *front = memory_zeroed(2 * panel->count, sizeof *front);
    find_axes(&place);
    svg_text(out, plot.x, plot.y - 10, "font-weight=\"bold\"", "%s", panel->title);
    draw_axes(&place, chart, out);
    size_t fronts = draw_front(&place, front, out);
    draw_points(&place, front, fronts, out);
    memory_free(front);
}

/* ---- the chart ----------------------------------------------------------------------------- */

/* Writes the text from y on in lines no wider than that, broken at blanks; returns the next y. NULL
 * for out: only measures. */
static double draw_lines(const char *text, double y, double width, FILE *out) {
    while (*text != '\0') {
        size_t length = svg_text_fits(text, TITLE_SIZE, width);
        svg_text(out, MARGIN, y, "font-size=\"15\" font-weight=\"bold\"", "%.*s", (int)length,
                 text);
        y += TITLE_SIZE + 5;
        text += length;
        text += strspn(text, " ");
    }
    return y;
}

/* Enough for the labels of the panel with the most points. */
static double plot_height(const Chart *chart) {
    size_t most = 0;
    for (size_t k = 0; k < chart->count; k++)
        most = chart->panel[k].count > most ? chart->panel[k].count : most;
    return PLOT_HEIGHT + (most > 16 ? 14.0 * (double)(most - 16) : 0);
}

void chart_write(const Chart *chart, FILE *out) {
    size_t columns = chart->count > 1 ? 2 : 1;
    size_t rows = (chart->count + columns - 1) / columns;
    double width = MARGIN + (double)columns * PANEL_WIDTH;
    double top = draw_lines(chart->title, MARGIN + TITLE_SIZE, width - 2 * MARGIN, NULL);
    double plot = plot_height(chart), panel = HEAD_ROOM + plot + FOOT_ROOM;
    svg_begin(out, width, top + (double)rows * panel + MARGIN, chart->title, chart->description);
    draw_lines(chart->title, MARGIN + TITLE_SIZE, width - 2 * MARGIN, out);
    for (size_t k = 0; k < chart->count; k++) {
        double x = MARGIN + (double)(k % columns) * PANEL_WIDTH + AXIS_ROOM;
        size_t row = k / columns;
        double y = top + (double)row * panel + HEAD_ROOM;
        draw_panel(chart, &chart->panel[k], (Box){x, y, PLOT_WIDTH, plot}, out);
    }
    svg_text(out, MARGIN, top + (double)rows * panel + MARGIN - 6, "font-size=\"11\"",
             "filled marks and dashed line: the front, where less of the one takes more of the "
             "other");
    svg_end(out);
}
