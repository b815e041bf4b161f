/* See prefix_refine in prefix.h: a local search for fewer cells.
 *
 * A network is looked at as a set of spans of columns, each [i:j] the join of [i:k] and [k - 1:j]
 * for some k; which k is left open until the end. Again and again a few spans are added at random,
 * and then every span in turn is dropped without which all carries are still there in time. What
 * comes out is kept if it is no larger. The numbers drawn are the same in every run, and so is the
 * network.
 *
 * What it is for: at the least depth, depth.c alone stops at 168 and 369 cells at 64 and 128 columns,
 * where others have published 167 and 364 (see depth.c). Without this file those two, and a cell or so
 * here and there, are lost. */
#include "base/memory.h"
#include "gates/prefix/prefix.h"

#include <assert.h>
#include <string.h>

enum {
    COLUMNS_MAX = 130,
    NEVER = 100,  /* the level of a span that cannot be made */
    ABSENT = 101, /* and of one that is not in the set */
    MOVES_A_COLUMN = 12,
    ADDED_MAX = 3,
};

/* One of the third or so that lead to 167 cells at 64 columns, and of the few to 364 at 128. */
static const uint64_t SEED = UINT64_C(0x9e3779b97f4a7c15);

typedef struct {
    unsigned columns, depth, cells;
    unsigned count[COLUMNS_MAX];              /* spans from column i down, itself the first */
    uint8_t bottom[COLUMNS_MAX][COLUMNS_MAX]; /* where they end, falling */
    uint8_t level[COLUMNS_MAX][COLUMNS_MAX];  /* of cells; [i][i] is 0 */
    bool stale[COLUMNS_MAX];                  /* levels that are to be worked out again */
} Spans;

typedef struct {
    unsigned top, bottom;
} Span;

static unsigned draw(uint64_t *state, unsigned below) { /* xorshift, G. Marsaglia 2003 */
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return below > 1 ? (unsigned)((*state >> 20) % below) : 0;
}

static unsigned later_level(unsigned one, unsigned other) {
    unsigned level = (one > other ? one : other) + 1;
    return level < NEVER ? level : NEVER;
}

/* The lowest level that [i:j] can have, and the k of the split, 0 where it has none. */
static unsigned best_split(const Spans *spans, unsigned i, unsigned j, unsigned *split) {
    unsigned best = NEVER;
    *split = 0;
    for (unsigned c = 0; c < spans->count[i] && spans->bottom[i][c] > j; c++) {
        unsigned k = spans->bottom[i][c];
        unsigned level = later_level(spans->level[i][k], spans->level[k - 1][j]);
        if (level < best) {
            best = level;
            *split = k;
        }
    }
    return best;
}

static void mark_readers(Spans *spans, unsigned i) {
    for (unsigned reader = i + 1; reader < spans->columns; reader++)
        if (spans->level[reader][i + 1] != ABSENT)
            spans->stale[reader] = true;
}

/* Works out the levels that follow from a change at column i, until one carry is late: then false,
 * and undoing the change and settling again makes all levels right. */
static bool settle(Spans *spans, unsigned i) {
    memset(spans->stale, 0, sizeof spans->stale);
    mark_readers(spans, i);
    spans->stale[i] = true;
    for (; i < spans->columns; i++) {
        bool changed = false;
        for (unsigned c = 1; c < spans->count[i] && spans->stale[i]; c++) {
            unsigned j = spans->bottom[i][c], split;
            unsigned level = best_split(spans, i, j, &split);
            changed = changed || level != spans->level[i][j];
            spans->level[i][j] = (uint8_t)level;
        }
        if (changed)
            mark_readers(spans, i);
        if (spans->level[i][0] > spans->depth)
            return false;
    }
    return true;
}

static void add(Spans *spans, Span span) {
    assert(span.bottom <= span.top && span.top < spans->columns);
    assert(spans->level[span.top][span.bottom] == ABSENT);
    uint8_t *bottom = spans->bottom[span.top];
    unsigned at = spans->count[span.top]++;
    for (; at > 0 && bottom[at - 1] < span.bottom; at--)
        bottom[at] = bottom[at - 1];
    bottom[at] = (uint8_t)span.bottom;
    spans->level[span.top][span.bottom] = NEVER;
    spans->cells++;
}

static void drop(Spans *spans, Span span) {
    assert(spans->level[span.top][span.bottom] != ABSENT && span.bottom < span.top);
    uint8_t *bottom = spans->bottom[span.top];
    unsigned at = 0;
    while (bottom[at] != span.bottom)
        at++;
    spans->count[span.top]--;
    memmove(bottom + at, bottom + at + 1, spans->count[span.top] - at);
    spans->level[span.top][span.bottom] = ABSENT;
    spans->cells--;
}

/* Half of the spans drawn are about as long as a power of two, as most of good networks are. */
static void add_some(Spans *spans, uint64_t *state) {
    for (unsigned k = draw(state, ADDED_MAX) + 1; k > 0; k--) {
        unsigned top = 2 + draw(state, spans->columns - 2);
        unsigned length = 1 + draw(state, top - 1);
        if (draw(state, 2) == 0)
            length = (1u << draw(state, spans->depth)) + draw(state, 3) - 2;
        if (length == 0 || length >= top || spans->level[top][top - length] != ABSENT)
            continue;
        add(spans, (Span){top, top - length});
        settle(spans, top);
    }
}

/* Drops what can be dropped, in an order drawn. */
static void drop_all(Spans *spans, uint64_t *state, Span *list) {
    unsigned count = 0;
    for (unsigned i = 1; i < spans->columns; i++)
        for (unsigned c = 1; c < spans->count[i]; c++)
            if (spans->bottom[i][c] != 0)
                list[count++] = (Span){i, spans->bottom[i][c]};
    for (; count > 0; count--) {
        unsigned drawn = draw(state, count);
        Span span = list[drawn];
        list[drawn] = list[count - 1];
        drop(spans, span);
        if (settle(spans, span.top))
            continue;
        add(spans, span);
        settle(spans, span.top);
    }
}

static void read_network(const Prefix *prefix, unsigned depth, Spans *spans) {
    assert(prefix->columns <= COLUMNS_MAX && depth < NEVER);
    spans->columns = prefix->columns;
    spans->depth = depth;
    memset(spans->level, ABSENT, sizeof spans->level);
    for (unsigned i = 0; i < spans->columns; i++) {
        spans->count[i] = 1;
        spans->bottom[i][0] = (uint8_t)i;
        spans->level[i][i] = 0;
    }
    for (uint32_t k = 0; k < prefix->cell_count; k++) {
        Span span = {prefix->cell[k].top, prefix->cell[k].bottom};
        if (spans->level[span.top][span.bottom] == ABSENT)
            add(spans, span);
    }
    for (unsigned i = 0; i < spans->columns; i++)
        settle(spans, i);
}

static void write_network(const Spans *spans, Prefix *prefix) {
    size_t columns = spans->columns;
    uint32_t *node = memory_zeroed(columns * columns, sizeof *node);
    prefix_free(prefix);
    prefix_init(prefix, spans->columns);
    for (unsigned i = 0; i < columns; i++) {
        node[i * columns + i] = i;
        for (unsigned c = 1; c < spans->count[i]; c++) {
            unsigned j = spans->bottom[i][c], k;
            best_split(spans, i, j, &k);
            assert(k > j && k <= i);
            node[i * columns + j] =
                prefix_join(prefix, node[i * columns + k], node[(k - 1) * columns + j]);
        }
        prefix->whole[i] = node[i * columns];
    }
    memory_free(node);
}

void prefix_refine(Prefix *prefix, unsigned depth) {
    unsigned columns = prefix->columns;
    if (columns < 3 || columns > COLUMNS_MAX || depth >= columns)
        return;
    unsigned fewest = 2 * columns - 2 - depth; /* M. Snir's bound, see depth.c */
    if (prefix->cell_count <= fewest)
        return;
    Spans *spans = memory_zeroed(1, sizeof *spans), *before = memory_zeroed(1, sizeof *before);
    Span *list = memory_zeroed((size_t)columns * columns, sizeof *list);
    uint64_t state = SEED;
    read_network(prefix, depth, spans);
    for (unsigned move = 0; move < MOVES_A_COLUMN * columns && spans->cells > fewest; move++) {
        *before = *spans;
        add_some(spans, &state);
        drop_all(spans, &state, list);
        if (spans->cells > before->cells)
            *spans = *before;
    }
    if (spans->cells < prefix->cell_count)
        write_network(spans, prefix);
    memory_free(spans);
    memory_free(before);
    memory_free(list);
}
