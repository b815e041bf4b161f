/* See scene.h. */
#include "draw/scene.h"

#include "base/memory.h"
#include "write/svg.h"

#include <stdlib.h>
#include <string.h>

void scene_init(Scene *scene, SymbolSet symbols) {
    *scene = (Scene){.symbols = symbols};
    scene->title = memory_text("%s", "");
    scene->description = memory_text("%s", "");
}

void scene_free(Scene *scene) {
    for (uint32_t k = 0; k < scene->box_count; k++)
        memory_free(scene->box[k].label);
    for (uint32_t k = 0; k < scene->text_count; k++)
        memory_free(scene->text[k].text);
    memory_free(scene->title);
    memory_free(scene->description);
    memory_free(scene->box);
    memory_free(scene->point);
    memory_free(scene->wire);
    memory_free(scene->dot);
    memory_free(scene->text);
    memory_free(scene->mark);
    *scene = (Scene){.symbols = SYMBOLS_DISTINCTIVE};
}

/* ---- what there is to see ------------------------------------------------------------------ */

void scene_say(Scene *scene, const char *title, const char *description) {
    char *title_kept = memory_text("%s", title), *description_kept = memory_text("%s", description);
    memory_free(scene->title);
    memory_free(scene->description);
    scene->title = title_kept;
    scene->description = description_kept;
}

uint32_t scene_box(Scene *scene, Box box, const char *label) {
    box.label = memory_text("%s", label);
    scene->box = memory_grow(scene->box, &scene->box_room, scene->box_count + 1, sizeof box);
    scene->box[scene->box_count] = box;
    return scene->box_count++;
}

uint32_t scene_rect(Scene *scene, Symbol symbol, double x, double y, double width, double height,
                    const char *label) {
    Box box = {.symbol = symbol, .x = x, .y = y, .width = width, .height = height};
    return scene_box(scene, box, label);
}

static void add_point(Scene *scene, Point point) {
    scene->point =
        memory_grow(scene->point, &scene->point_room, scene->point_count + 1, sizeof point);
    scene->point[scene->point_count++] = point;
}

void scene_wire(Scene *scene, Net net, WireStyle style, double x, double y) {
    Wire wire = {net, style, scene->point_count, 1};
    scene->wire = memory_grow(scene->wire, &scene->wire_room, scene->wire_count + 1, sizeof wire);
    scene->wire[scene->wire_count++] = wire;
    add_point(scene, (Point){x, y});
}

void scene_to(Scene *scene, double x, double y) {
    Point last = scene->point[scene->point_count - 1];
    double dx = last.x - x, dy = last.y - y;
    if (dx * dx + dy * dy < 1e-6)
        return;
    add_point(scene, (Point){x, y});
    scene->wire[scene->wire_count - 1].count++;
}

static void add_text(Scene *scene, Text text) {
    scene->text = memory_grow(scene->text, &scene->text_room, scene->text_count + 1, sizeof text);
    scene->text[scene->text_count++] = text;
}

void scene_text(Scene *scene, double x, double y, Anchor anchor, TextStyle style,
                const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    add_text(scene, (Text){x, y, anchor, style, text, LITERAL_NONE, false});
}

void scene_value(Scene *scene, double x, double y, Anchor anchor, Net net, bool level) {
    char *text = memory_text("%d", level);
    add_text(scene, (Text){x, y, anchor, TEXT_SMALL, text, net, level});
}

void scene_name(Scene *scene, double x, double y, Anchor anchor, Net net, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    add_text(scene, (Text){x, y, anchor, TEXT_PLAIN, text, net, false});
}

void scene_forget_texts(Scene *scene, uint32_t kept) {
    while (scene->text_count > kept)
        memory_free(scene->text[--scene->text_count].text);
}

void scene_mark(Scene *scene, Mark mark) {
    scene->mark = memory_grow(scene->mark, &scene->mark_room, scene->mark_count + 1, sizeof mark);
    scene->mark[scene->mark_count++] = mark;
}

double scene_paragraph(Scene *scene, double x, double y, double width, TextStyle style,
                       const char *text) {
    while (*text != '\0') {
        size_t length = svg_text_fits(text, scene_text_size(style), width);
        scene_text(scene, x, y, ANCHOR_START, style, "%.*s", (int)length, text);
        text += length;
        text += strspn(text, " ");
        y += SCENE_LINE;
    }
    return y;
}

/* ---- how large it is ----------------------------------------------------------------------- */

double scene_text_size(TextStyle style) {
    static const double sizes[TEXT_STYLE_COUNT] = {
        [TEXT_PLAIN] = 12, [TEXT_SMALL] = 10, [TEXT_BOLD] = 12, [TEXT_TITLE] = 17};
    return sizes[style];
}

/* Capitals and figures reach about three quarters of the size above the baseline, and tails a
 * fifth below it (common practice, no source). */
Extent scene_text_extent(const Text *text) {
    const double size = scene_text_size(text->style), width = svg_text_width(text->text, size);
    double left = text->x;
    if (text->anchor == ANCHOR_MIDDLE)
        left -= width / 2;
    if (text->anchor == ANCHOR_END)
        left -= width;
    return (Extent){left, text->y - 0.75 * size, left + width, text->y + 0.22 * size};
}

static void include(Extent *all, bool *any, Extent one) {
    if (!*any)
        *all = one;
    *any = true;
    all->left = one.left < all->left ? one.left : all->left;
    all->top = one.top < all->top ? one.top : all->top;
    all->right = one.right > all->right ? one.right : all->right;
    all->bottom = one.bottom > all->bottom ? one.bottom : all->bottom;
}

Extent scene_extent(const Scene *scene) {
    Extent all = {0, 0, 0, 0};
    bool any = false;
    for (uint32_t k = 0; k < scene->box_count; k++) {
        const Box *box = &scene->box[k];
        include(&all, &any, (Extent){box->x, box->y, box->x + box->width, box->y + box->height});
    }
    for (uint32_t k = 0; k < scene->point_count; k++) {
        Point point = scene->point[k];
        include(&all, &any, (Extent){point.x, point.y, point.x, point.y});
    }
    for (uint32_t k = 0; k < scene->text_count; k++)
        include(&all, &any, scene_text_extent(&scene->text[k]));
    for (uint32_t k = 0; k < scene->mark_count; k++) {
        const Mark *mark = &scene->mark[k];
        bool ring = mark->kind == MARK_COMPARED;
        double left = ring ? mark->x - mark->width / 2 : mark->x;
        double top = ring ? mark->y - mark->height / 2 : mark->y;
        include(&all, &any, (Extent){left, top, left + mark->width, top + mark->height});
    }
    return all;
}

static void shift(Scene *scene, double dx, double dy) {
    for (uint32_t k = 0; k < scene->box_count; k++) {
        scene->box[k].x += dx;
        scene->box[k].y += dy;
    }
    for (uint32_t k = 0; k < scene->point_count; k++) {
        scene->point[k].x += dx;
        scene->point[k].y += dy;
    }
    for (uint32_t k = 0; k < scene->dot_count; k++) {
        scene->dot[k].x += dx;
        scene->dot[k].y += dy;
    }
    for (uint32_t k = 0; k < scene->text_count; k++) {
        scene->text[k].x += dx;
        scene->text[k].y += dy;
    }
    for (uint32_t k = 0; k < scene->mark_count; k++) {
        scene->mark[k].x += dx;
        scene->mark[k].y += dy;
    }
}

/* ---- where wires join ------------------------------------------------------------------------ */

/* A straight stretch of a wire. */
typedef struct {
    Net net;
    uint32_t number;
    Extent extent;
} Stretch;

static int compare_stretches(const void *one, const void *other) {
    const Stretch *a = one, *b = other;
    if (a->net != b->net)
        return a->net < b->net ? -1 : 1;
    return a->number < b->number ? -1 : a->number > b->number;
}

/* In the order of their nets; wires without one are left out. */
static Stretch *list_stretches(const Scene *scene, uint32_t *count) {
    Stretch *stretch = memory_zeroed(scene->point_count + 1, sizeof stretch[0]);
    *count = 0;
    for (uint32_t k = 0; k < scene->wire_count; k++) {
        const Wire *wire = &scene->wire[k];
        for (uint32_t p = 1; p < wire->count && wire->net != LITERAL_NONE; p++) {
            Point one = scene->point[wire->first + p - 1], other = scene->point[wire->first + p];
            bool forward = one.x < other.x || one.y < other.y;
            Point from = forward ? one : other, to = forward ? other : one;
            stretch[*count] = (Stretch){wire->net, *count, {from.x, from.y, to.x, to.y}};
            ++*count;
        }
    }
    qsort(stretch, *count, sizeof stretch[0], compare_stretches);
    return stretch;
}

/* How many ways the stretches of a net go from a point. */
static int ways_from(const Stretch *stretch, uint32_t count, double x, double y) {
    const double near = 0.1;
    bool left = false, right = false, up = false, down = false;
    for (uint32_t k = 0; k < count; k++) {
        Extent of = stretch[k].extent;
        if (x < of.left - near || x > of.right + near || y < of.top - near || y > of.bottom + near)
            continue;
        left = left || of.left < x - near;
        right = right || of.right > x + near;
        up = up || of.top < y - near;
        down = down || of.bottom > y + near;
    }
    return left + right + up + down;
}

static void add_dot(Scene *scene, Net net, double x, double y) {
    for (uint32_t k = scene->dot_count; k-- > 0 && scene->dot[k].net == net;) {
        double dx = scene->dot[k].x - x, dy = scene->dot[k].y - y;
        if (dx * dx + dy * dy < 0.1)
            return;
    }
    scene->dot = memory_grow(scene->dot, &scene->dot_room, scene->dot_count + 1, sizeof(Dot));
    scene->dot[scene->dot_count++] = (Dot){x, y, net};
}

/* At the ends of every stretch; where wires of a net only cross there is no dot. */
static void join(Scene *scene) {
    uint32_t count;
    Stretch *stretch = list_stretches(scene, &count);
    for (uint32_t k = 0, next; k < count; k = next) {
        for (next = k; next < count && stretch[next].net == stretch[k].net;)
            next++;
        for (uint32_t one = k; one < next; one++) {
            Extent of = stretch[one].extent;
            if (ways_from(stretch + k, next - k, of.left, of.top) > 2)
                add_dot(scene, stretch[k].net, of.left, of.top);
            if (ways_from(stretch + k, next - k, of.right, of.bottom) > 2)
                add_dot(scene, stretch[k].net, of.right, of.bottom);
        }
    }
    memory_free(stretch);
}

void scene_settle(Scene *scene) {
    join(scene);
    Extent all = scene_extent(scene);
    shift(scene, SCENE_MARGIN - all.left, SCENE_MARGIN - all.top);
    scene->width = all.right - all.left + 2 * SCENE_MARGIN;
    scene->height = all.bottom - all.top + 2 * SCENE_MARGIN;
}

/* ---- on paper ------------------------------------------------------------------------------ */

static void write_marks(const Scene *scene, MarkKind kind, FILE *out) {
    for (uint32_t k = 0; k < scene->mark_count; k++) {
        const Mark *mark = &scene->mark[k];
        if (mark->kind != kind)
            continue;
        if (kind == MARK_BAND)
            svg_rect(out, mark->x, mark->y, mark->width, mark->height, "fill=\"#ececec\"");
        else
            svg_circle(out, mark->x, mark->y, mark->width / 2,
                       "fill=\"none\" stroke=\"black\" stroke-width=\"1.6\"");
    }
}

static void write_wires(const Scene *scene, WireStyle style, const char *attributes, FILE *out) {
    svg_group(out, attributes);
    for (uint32_t k = 0; k < scene->wire_count; k++) {
        const Wire *wire = &scene->wire[k];
        if (wire->style != style)
            continue;
        svg_path(out, "");
        for (uint32_t p = 0; p < wire->count; p++)
            svg_to(out, p == 0 ? 'M' : 'L', scene->point[wire->first + p].x,
                   scene->point[wire->first + p].y);
        svg_path_end(out, false);
    }
    svg_group_end(out);
}

static void write_texts(const Scene *scene, FILE *out) {
    static const char *const fonts[TEXT_STYLE_COUNT] = {
        [TEXT_PLAIN] = "",
        [TEXT_SMALL] = " font-size=\"10\"",
        [TEXT_BOLD] = " font-weight=\"bold\"",
        [TEXT_TITLE] = " font-size=\"17\" font-weight=\"bold\""};
    static const char *const anchors[] = {[ANCHOR_START] = "",
                                          [ANCHOR_MIDDLE] = " text-anchor=\"middle\"",
                                          [ANCHOR_END] = " text-anchor=\"end\""};
    for (uint32_t k = 0; k < scene->text_count; k++) {
        const Text *text = &scene->text[k];
        char attributes[96];
        snprintf(attributes, sizeof attributes, "%s%s", fonts[text->style], anchors[text->anchor]);
        svg_text(out, text->x, text->y, attributes + (attributes[0] == ' '), "%s", text->text);
    }
}

void scene_write(const Scene *scene, FILE *out) {
    svg_begin(out, scene->width, scene->height, scene->title, scene->description);
    write_marks(scene, MARK_BAND, out);
    write_wires(scene, WIRE_FRAME, "fill=\"none\" stroke=\"black\" stroke-width=\"0.5\"", out);
    write_wires(scene, WIRE_FINE, "fill=\"none\" stroke=\"black\" stroke-width=\"0.5\"", out);
    write_wires(scene, WIRE_PLAIN, "fill=\"none\" stroke=\"black\" stroke-linecap=\"square\"", out);
    write_wires(scene, WIRE_DASHED, "fill=\"none\" stroke=\"black\" stroke-dasharray=\"3 3\"", out);
    write_wires(scene, WIRE_HEAVY,
                "fill=\"none\" stroke=\"black\" stroke-width=\"3\" stroke-linecap=\"square\"", out);
    for (uint32_t k = 0; k < scene->box_count; k++)
        symbol_write(&scene->box[k], scene->symbols, out);
    for (uint32_t k = 0; k < scene->dot_count; k++)
        svg_circle(out, scene->dot[k].x, scene->dot[k].y, 2.6, "");
    write_marks(scene, MARK_COMPARED, out);
    write_texts(scene, out);
    svg_end(out);
}
