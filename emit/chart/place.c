/* See place.h. Each label tries places on ever wider rings around its point and takes the first
 * that is free. */
#include "chart/place.h"

#include "base/memory.h"

#include <math.h>

enum { DIRECTIONS = 40, RINGS = 60, STEPS = 24 /* samples along a leading line */ };

static const double first_gap = 3, next_gap = 5; /* pixels from the mark's edge, and from ring to
                                                    ring */

/* The directions, those that read best first: right, left, the corners, above, below, then all
 * round in small steps. */
static void find_direction(int which, double towards[2]) {
    static const double best[][2] = {{1, 0},         {-1, 0},       {0.71, -0.71}, {0.71, 0.71},
                                     {-0.71, -0.71}, {-0.71, 0.71}, {0, -1},       {0, 1}};
    enum { BEST = sizeof best / sizeof best[0] };
    double angle = 2 * 3.14159265 * (which - BEST) / (DIRECTIONS - BEST);
    towards[0] = which < BEST ? best[which][0] : cos(angle);
    towards[1] = which < BEST ? best[which][1] : sin(angle);
}

bool place_overlaps(Box one, Box other) {
    return one.x < other.x + other.width && other.x < one.x + one.width &&
           one.y < other.y + other.height && other.y < one.y + one.height;
}

static bool within(Box box, Box area) {
    return box.x >= area.x && box.y >= area.y && box.x + box.width <= area.x + area.width &&
           box.y + box.height <= area.y + area.height;
}

static Box mark_box(const Label *label) {
    return (Box){label->x - label->radius, label->y - label->radius, 2 * label->radius,
                 2 * label->radius};
}

/* Puts a label that far from its point's centre in a direction: what is nearest to the point is an
 * end, or where the direction is upright, the middle of a side. */
static void put(Label *label, const double towards[2], double distance) {
    double end_x = label->x + distance * towards[0], end_y = label->y + distance * towards[1];
    double left = towards[0] > 0.3 ? 0 : towards[0] < -0.3 ? label->width : label->width / 2;
    double above = towards[0] > 0.3 || towards[0] < -0.3 ? label->height / 2
                   : towards[1] > 0                      ? 0
                                                         : label->height;
    label->box = (Box){end_x - left, end_y - above, label->width, label->height};
    label->led = distance > label->radius + first_gap;
    label->from_x = label->x + label->radius * towards[0];
    label->from_y = label->y + label->radius * towards[1];
    label->to_x = end_x;
    label->to_y = end_y;
}

/* Does the label's leading line run through a box? */
static bool leads_through(const Label *label, Box box) {
    for (int k = 1; k < STEPS && label->led; k++) {
        double part = (double)k / STEPS;
        double x = label->from_x + part * (label->to_x - label->from_x);
        double y = label->from_y + part * (label->to_y - label->from_y);
        if (x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height)
            return true;
    }
    return false;
}

/* How choosy a search is. */
typedef enum { OFF_OBSTACLES, OFF_MARKS, LINES_OVER_MARKS } Care;

typedef struct {
    Label *label;
    size_t count;
    Box area;
    const Box *obstacle;
    size_t obstacles;
    Care care;
} Search;

static bool is_clear(const Search *search, Box box) {
    for (size_t k = 0; k < search->obstacles && search->care == OFF_OBSTACLES; k++)
        if (place_overlaps(box, search->obstacle[k]))
            return false;
    return within(box, search->area);
}

/* Is the place of a label free of every mark and of the labels that have a place? */
static bool is_free(const Search *search, const Label *label) {
    for (size_t k = 0; k < search->count; k++) {
        const Label *other = &search->label[k];
        if (place_overlaps(label->box, mark_box(other)))
            return false;
        if (other == label)
            continue;
        if (search->care < LINES_OVER_MARKS && leads_through(label, mark_box(other)))
            return false;
        if (other->placed && (place_overlaps(label->box, other->box) ||
                              leads_through(label, other->box) || leads_through(other, label->box)))
            return false;
    }
    return true;
}

static bool find_place(const Search *search, Label *label) {
    for (int ring = 0; ring < RINGS; ring++)
        for (int k = 0; k < DIRECTIONS; k++) {
            double towards[2];
            find_direction(k, towards);
            put(label, towards, label->radius + first_gap + ring * next_gap);
            if (is_clear(search, label->box) && is_free(search, label))
                return true;
        }
    return false;
}

/* The largest label that has not been tried: the hardest to place. */
static size_t next_label(const Search *search, const bool *tried) {
    size_t largest = search->count;
    for (size_t k = 0; k < search->count; k++)
        if (!tried[k] &&
            (largest == search->count || search->label[k].height > search->label[largest].height))
            largest = k;
    return largest;
}

void place_labels(Label *labels, size_t count, Box area, const Box *obstacle, size_t obstacles) {
    Search search = {labels, count, area, obstacle, obstacles, OFF_OBSTACLES};
    bool *tried = memory_zeroed(count, sizeof *tried);
    for (size_t k = 0; k < count; k++)
        labels[k].placed = false;
    for (size_t done = 0; done < count; done++) {
        size_t k = next_label(&search, tried);
        tried[k] = true;
        for (int care = OFF_OBSTACLES; care <= LINES_OVER_MARKS && !labels[k].placed; care++) {
            search.care = (Care)care;
            labels[k].placed = find_place(&search, &labels[k]);
        }
    }
    memory_free(tried);
}
