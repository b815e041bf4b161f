/* The geometry of a drawing: what may lie on what. The rules are those that draw/scene.h states.
 * For cmocka groups. */
#ifndef SUMWRIGHT_TESTS_DRAWING_H
#define SUMWRIGHT_TESTS_DRAWING_H

#include "draw/scene.h"
#include "write/svg.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Two things nearer than this touch. */
#define DRAWING_NEAR 0.1

/* One straight stretch of a wire, and whether its ends are the wire's. */
typedef struct {
    const Wire *wire;
    Extent extent;
    Point from, to;
    bool first, last;
} Stretch;

static inline bool drawing_overlap(Extent one, Extent other) {
    return one.left < other.right - DRAWING_NEAR && other.left < one.right - DRAWING_NEAR &&
           one.top < other.bottom - DRAWING_NEAR && other.top < one.bottom - DRAWING_NEAR;
}

static inline bool drawing_touch(Extent one, Extent other) {
    return one.left < other.right + DRAWING_NEAR && other.left < one.right + DRAWING_NEAR &&
           one.top < other.bottom + DRAWING_NEAR && other.top < one.bottom + DRAWING_NEAR;
}

static inline bool drawing_within(Extent inner, Extent outer) {
    return inner.left > outer.left - DRAWING_NEAR && inner.right < outer.right + DRAWING_NEAR &&
           inner.top > outer.top - DRAWING_NEAR && inner.bottom < outer.bottom + DRAWING_NEAR;
}

static inline Extent drawing_box(const Box *box) {
    return (Extent){box->x, box->y, box->x + box->width, box->y + box->height};
}

static inline bool drawing_same_net(Net one, Net other) {
    return one == other && one != LITERAL_NONE;
}

static inline double drawing_least(double one, double other) {
    return one < other ? one : other;
}

static inline Stretch *drawing_stretches(const Scene *scene, const char *what, size_t *count) {
    Stretch *stretches = calloc(scene->point_count + 1, sizeof *stretches);
    *count = 0;
    for (uint32_t k = 0; k < scene->wire_count; k++) {
        const Wire *wire = &scene->wire[k];
        if (wire->count < 2)
            fail_msg("%s: a wire of one point", what);
        for (uint32_t p = 1; p < wire->count; p++) {
            Point from = scene->point[wire->first + p - 1], to = scene->point[wire->first + p];
            bool across = from.y - to.y < DRAWING_NEAR && to.y - from.y < DRAWING_NEAR;
            bool down = from.x - to.x < DRAWING_NEAR && to.x - from.x < DRAWING_NEAR;
            if (across == down && wire->style != WIRE_FRAME)
                fail_msg("%s: a wire goes aslant at %.0f, %.0f", what, from.x, from.y);
            stretches[(*count)++] =
                (Stretch){wire,
                          {drawing_least(from.x, to.x), drawing_least(from.y, to.y),
                           -drawing_least(-from.x, -to.x), -drawing_least(-from.y, -to.y)},
                          from,
                          to,
                          p == 1,
                          p + 1 == wire->count};
        }
    }
    return stretches;
}

static inline void drawing_check_texts(const Scene *scene, const Stretch *stretches, size_t count,
                                       const char *what) {
    for (uint32_t k = 0; k < scene->text_count; k++) {
        const Text *text = &scene->text[k];
        Extent extent = scene_text_extent(text);
        for (uint32_t other = 0; other < k; other++)
            if (drawing_overlap(extent, scene_text_extent(&scene->text[other])))
                fail_msg("%s: '%s' lies on '%s' at %.0f, %.0f", what, text->text,
                         scene->text[other].text, text->x, text->y);
        for (uint32_t box = 0; box < scene->box_count; box++)
            if (drawing_overlap(extent, drawing_box(&scene->box[box])))
                fail_msg("%s: '%s' lies on a box '%s' at %.0f, %.0f", what, text->text,
                         scene->box[box].label, text->x, text->y);
        for (size_t s = 0; s < count; s++)
            if (!drawing_same_net(stretches[s].wire->net, text->net) &&
                drawing_touch(extent, stretches[s].extent))
                fail_msg("%s: '%s' lies on a wire at %.0f, %.0f", what, text->text, text->x,
                         text->y);
    }
}

/* A label lies within its box: as wide as its longest line, 14 pixels a line. */
static inline void drawing_check_label(const Box *box, const char *what) {
    double height = 0;
    for (const char *line = box->label; line[0] != '\0';) {
        char text[256];
        size_t length = strcspn(line, "\n");
        snprintf(text, sizeof text, "%.*s", (int)length, line);
        if (svg_text_width(text, 12) > box->width)
            fail_msg("%s: the label '%s' is wider than its box", what, text);
        height += 14;
        line += length + (line[length] == '\n');
    }
    if (height > box->height)
        fail_msg("%s: the label '%s' is higher than its box", what, box->label);
}

static inline void drawing_check_boxes(const Scene *scene, const char *what) {
    for (uint32_t k = 0; k < scene->box_count; k++) {
        drawing_check_label(&scene->box[k], what);
        for (uint32_t other = 0; other < k; other++)
            if (drawing_overlap(drawing_box(&scene->box[k]), drawing_box(&scene->box[other])))
                fail_msg("%s: box '%s' lies on box '%s' at %.0f, %.0f", what, scene->box[k].label,
                         scene->box[other].label, scene->box[k].x, scene->box[k].y);
    }
}

/* Does the stretch reach the box otherwise than with the end of its wire? */
static inline bool drawing_runs_into(const Stretch *stretch, Extent box) {
    if (!drawing_touch(stretch->extent, box))
        return false;
    Extent meeting = {-drawing_least(-stretch->extent.left, -box.left),
                      -drawing_least(-stretch->extent.top, -box.top),
                      drawing_least(stretch->extent.right, box.right),
                      drawing_least(stretch->extent.bottom, box.bottom)};
    for (int end = 0; end < 2; end++) {
        bool ends = end == 0 ? stretch->first : stretch->last;
        Point point = end == 0 ? stretch->from : stretch->to;
        Extent around = {point.x - 3 * DRAWING_NEAR, point.y - 3 * DRAWING_NEAR,
                         point.x + 3 * DRAWING_NEAR, point.y + 3 * DRAWING_NEAR};
        if (ends && drawing_within(meeting, around))
            return false;
    }
    return true;
}

static inline void drawing_check_wires(const Scene *scene, const Stretch *stretches, size_t count,
                                       const char *what) {
    for (size_t s = 0; s < count; s++) {
        const Stretch *one = &stretches[s];
        if (one->wire->style == WIRE_FRAME)
            continue;
        for (uint32_t k = 0; k < scene->box_count; k++)
            if (drawing_runs_into(one, drawing_box(&scene->box[k])))
                fail_msg("%s: a wire (net %u) runs into box '%s' at %.0f, %.0f", what,
                         one->wire->net, scene->box[k].label, scene->box[k].x, scene->box[k].y);
        for (size_t t = 0; t < s; t++) {
            const Stretch *other = &stretches[t];
            if (one->wire == other->wire || other->wire->style == WIRE_FRAME ||
                drawing_same_net(one->wire->net, other->wire->net) ||
                !drawing_touch(one->extent, other->extent))
                continue;
            bool across = one->extent.bottom - one->extent.top < DRAWING_NEAR;
            bool other_across = other->extent.bottom - other->extent.top < DRAWING_NEAR;
            /* Wires may cross, but no corner or end of one may lie on the other. */
            Extent crossing =
                across ? (Extent){other->from.x, one->from.y, other->from.x, one->from.y}
                       : (Extent){one->from.x, other->from.y, one->from.x, other->from.y};
            bool corner = false;
            for (int end = 0; end < 4; end++) {
                Point point = end == 0   ? one->from
                              : end == 1 ? one->to
                              : end == 2 ? other->from
                                         : other->to;
                Extent at = {point.x, point.y, point.x, point.y};
                corner = corner || drawing_touch(at, crossing);
            }
            if (across == other_across || corner)
                fail_msg("%s: wires of nets %u and %u run together at %.0f, %.0f", what,
                         one->wire->net, other->wire->net, one->from.x, one->from.y);
        }
    }
}

/* A dot stands on a wire of its net, and on no other. */
static inline void drawing_check_dots(const Scene *scene, const Stretch *stretches, size_t count,
                                      const char *what) {
    for (uint32_t k = 0; k < scene->dot_count; k++) {
        const Dot *dot = &scene->dot[k];
        Extent at = {dot->x, dot->y, dot->x, dot->y};
        bool own = false;
        for (size_t s = 0; s < count; s++) {
            if (stretches[s].wire->style == WIRE_FRAME || !drawing_touch(at, stretches[s].extent))
                continue;
            if (!drawing_same_net(stretches[s].wire->net, dot->net))
                fail_msg("%s: a dot on a foreign wire at %.0f, %.0f", what, dot->x, dot->y);
            own = true;
        }
        if (!own)
            fail_msg("%s: a dot on no wire at %.0f, %.0f", what, dot->x, dot->y);
    }
}

/* Where on the edge of a gate or inverter its input 0 or 1 (an inverter has input 0 alone) and its
 * output are. Input 0 is left of input 1 on a gate that faces down, above it on others. */
static inline Point drawing_pin(const Box *box, double along, double across) {
    bool down = box->facing == FACING_DOWN;
    if (down)
        return (Point){box->x + across, box->y + along};
    return (Point){box->facing == FACING_RIGHT ? box->x + along : box->x + box->width - along,
                   box->y + across};
}

static inline Point drawing_input(const Box *box, int which) {
    double offset = box->symbol == SYMBOL_INVERTER ? 0 : which == 0 ? -GATE_INPUT : GATE_INPUT;
    return drawing_pin(box, 0, GATE_ACROSS / 2.0 + offset);
}

static inline Point drawing_output(const Box *box) {
    return drawing_pin(box, GATE_ALONG, GATE_ACROSS / 2.0);
}

/* Fails where the settled scene breaks a rule; what names it in the message. */
static inline void drawing_check(const Scene *scene, const char *what) {
    size_t count = 0;
    Stretch *stretches = drawing_stretches(scene, what, &count);
    drawing_check_boxes(scene, what);
    drawing_check_texts(scene, stretches, count, what);
    drawing_check_wires(scene, stretches, count, what);
    drawing_check_dots(scene, stretches, count, what);
    if (!drawing_within(scene_extent(scene), (Extent){0, 0, scene->width, scene->height}))
        fail_msg("%s: something leaves the page", what);
    free(stretches);
}

#endif
