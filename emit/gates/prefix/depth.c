/* The fewest prefix cells within a number of levels, by dynamic programming over the ways to put
 * networks together.
 *
 * least(n, all, last, start) is the number of cells of the smallest network found on n columns
 * whose lowest column is there at level `start`, the others at level 0, with every carry by level
 * `all` and the highest one by level `last`. A network is one of
 *
 * - fan: two networks, the upper one's carries each joined to the lower one's last; the upper has a
 *   level less,
 * - chain: two networks, the lower one's last carry being the lowest column of the upper one,
 * - pairs: neighbours joined, a network over the pairs, and the columns in between joined to the
 *   pair below.
 *
 * The serial chain and the networks of Sklansky, of Brent and Kung and of Ladner and Fischer are
 * all of this kind. So are networks that meet Snir's bound, cells + levels >= 2n - 2 (M. Snir,
 * "Depth-size trade-offs for parallel prefix computation", Journal of Algorithms, 1986), for every
 * depth from log2 n + 2 or 3 on; below that no bound is known to us that tells how far from the
 * best the found ones are. There refine.c goes on from what is found here. At the least depth these
 * are 31, 74, 168 and 369 cells at 16, 32, 64 and 128 columns, and then 31, 74, 167 and 364, as
 * many as others found (S. Roy and others, 2013 and 2014; from memory).
 *
 * Up to SPLITS_ALL columns every split is tried, above only splits at multiples of an eighth. */
#include "base/memory.h"
#include "gates/prefix/prefix.h"

#include <assert.h>

enum {
    NONE = 1 << 28, /* cells of a network that there is not */
    SPLITS_ALL = 128,
    FIRST_ROOM = 1024, /* a power of two */
};

typedef enum { WAY_NONE, WAY_FAN, WAY_CHAIN, WAY_PAIRS } Way;

typedef struct {
    uint64_t key; /* 0: free */
    int cells;
    Way way;
    unsigned split;  /* columns of the lower network */
    int split_level; /* its last carry is there */
} Entry;

typedef struct {
    Entry *entry;
    size_t room; /* a power of two */
    size_t count;
} Memory;

typedef struct {
    unsigned columns;
    int all, last, start;
} Task;

/* ---- what has been found ------------------------------------------------------------------- */

static Entry *slot(Entry *entry, size_t room, uint64_t key) {
    size_t at = (size_t)(key * UINT64_C(0x9e3779b97f4a7c15) >> 20) & (room - 1);
    while (entry[at].key != 0 && entry[at].key != key)
        at = (at + 1) & (room - 1);
    return &entry[at];
}

static uint64_t key_of(Task task) {
    assert(task.all >= 0 && task.last >= 0 && task.start >= 0);
    assert(task.all < 256 && task.last < 256 && task.start < 256);
    return (uint64_t)task.columns << 24 | (uint64_t)task.all << 16 | (uint64_t)task.last << 8 |
           (uint64_t)task.start;
}

static void make_room(Memory *memory) {
    assert((memory->room & (memory->room - 1)) == 0);
    if (2 * memory->count < memory->room)
        return;
    size_t room = 2 * memory->room;
    Entry *entry = memory_zeroed(room, sizeof *entry);
    for (size_t k = 0; k < memory->room; k++)
        if (memory->entry[k].key != 0)
            *slot(entry, room, memory->entry[k].key) = memory->entry[k];
    memory_free(memory->entry);
    memory->entry = entry;
    memory->room = room;
}

/* ---- the search ---------------------------------------------------------------------------- */

static int least_of(int one, int other) {
    return one < other ? one : other;
}

static int least(Memory *memory, Task task);

static void offer(Entry *best, Entry other) {
    if (other.cells < best->cells) {
        other.key = best->key;
        *best = other;
    }
}

static Task lower_of(Task task, unsigned split, int level) {
    assert(split > 0 && split < task.columns);
    return (Task){split, task.all, least_of(level, task.all), task.start};
}

static Task fan_upper(Task task, unsigned split) {
    return (Task){task.columns - split, task.all - 1, task.last - 1, 0};
}

static Task chain_upper(Task task, unsigned split, int level) {
    return (Task){task.columns - split + 1, task.all, task.last, level};
}

static Task pairs_inner(Task task) {
    bool odd = task.columns % 2 == 1;
    return (Task){task.columns / 2 + odd, task.all - 2, task.last - 1,
                  odd && task.start > 0 ? task.start - 1 : task.start};
}

static void try_split(Memory *memory, Task task, unsigned split, Entry *best) {
    unsigned upper = task.columns - split;
    int level = upper > 1 ? least_of(task.last, task.all) - 1 : least_of(task.last - 1, task.all);
    int cells = least(memory, lower_of(task, split, level));
    if (cells < NONE)
        offer(best, (Entry){.cells = cells + least(memory, fan_upper(task, split)) + (int)upper,
                            .way = WAY_FAN,
                            .split = split,
                            .split_level = level});
    for (level = task.start + 1; split > 1 && upper > 1 && level <= least_of(task.last, task.all);
         level++) {
        cells = least(memory, lower_of(task, split, level));
        if (cells < NONE)
            offer(best, (Entry){.cells = cells + least(memory, chain_upper(task, split, level)),
                                .way = WAY_CHAIN,
                                .split = split,
                                .split_level = level});
    }
}

/* Pairs from column 1 on where the columns are odd, so that the lowest stays alone; from 0 on where
 * they are even. */
static void try_pairs(Memory *memory, Task task, Entry *best) {
    if (task.columns < 3 || task.start >= task.all)
        return;
    int cells = least(memory, pairs_inner(task));
    offer(best, (Entry){.cells = cells + (int)task.columns - 1, .way = WAY_PAIRS});
}

static bool impossible(Task task) {
    return task.last <= task.start || task.all < 0 ||
           prefix_least_depth(task.columns) > (unsigned)task.last ||
           prefix_least_depth(task.columns - 1) > (unsigned)task.all;
}

static int least(Memory *memory, Task task) {
    if (task.last < 0 || task.all < 0)
        return NONE;
    if (task.columns == 1)
        return task.start <= task.last ? 0 : NONE;
    if (impossible(task))
        return NONE;
    const Entry *known = slot(memory->entry, memory->room, key_of(task));
    if (known->key != 0)
        return known->cells;
    Entry best = {.key = key_of(task), .cells = NONE};
    unsigned step = 1;
    if (task.columns > SPLITS_ALL)
        step = 1u << (prefix_least_depth(task.columns) - 3);
    for (unsigned split = step; split < task.columns; split += step)
        try_split(memory, task, split, &best);
    try_pairs(memory, task, &best);
    make_room(memory);
    *slot(memory->entry, memory->room, best.key) = best;
    memory->count++;
    return best.cells;
}

/* ---- the network --------------------------------------------------------------------------- */

static void make(Memory *memory, Task task, Prefix *prefix, uint32_t *node);

static void make_pairs(Memory *memory, Task task, Prefix *prefix, uint32_t *node) {
    Task inner = pairs_inner(task);
    unsigned odd = task.columns % 2;
    uint32_t *pair = memory_zeroed(inner.columns, sizeof *pair);
    pair[0] = node[0];
    for (unsigned k = odd; k < inner.columns; k++)
        pair[k] = prefix_join(prefix, node[2 * k + 1 - odd], node[2 * k - odd]);
    make(memory, inner, prefix, pair);
    for (unsigned k = 1; k < inner.columns; k++) {
        unsigned between = 2 * k - odd;
        node[between] = prefix_join(prefix, node[between], pair[k - 1]);
    }
    for (unsigned k = odd; k < inner.columns; k++)
        node[2 * k + 1 - odd] = pair[k];
    memory_free(pair);
}

static void make(Memory *memory, Task task, Prefix *prefix, uint32_t *node) {
    if (task.columns == 1)
        return;
    Entry best = *slot(memory->entry, memory->room, key_of(task));
    assert(best.way != WAY_NONE);
    if (best.way == WAY_PAIRS) {
        make_pairs(memory, task, prefix, node);
        return;
    }
    make(memory, lower_of(task, best.split, best.split_level), prefix, node);
    if (best.way == WAY_CHAIN) {
        make(memory, chain_upper(task, best.split, best.split_level), prefix,
             node + best.split - 1);
        return;
    }
    make(memory, fan_upper(task, best.split), prefix, node + best.split);
    for (unsigned i = best.split; i < task.columns; i++)
        node[i] = prefix_join(prefix, node[i], node[best.split - 1]);
}

void depth_make(Prefix *prefix, unsigned depth) {
    unsigned columns = prefix->columns, tail = 0;
    unsigned least_depth = prefix_least_depth(columns);
    if (depth < least_depth)
        depth = least_depth;
    /* With more levels than a network needs for Snir's bound the highest columns follow one by one,
     * a cell and a level each, which keeps the bound. */
    while (columns > 1 && depth > 2 * prefix_least_depth(columns)) {
        columns--;
        depth--;
        tail++;
    }
    Memory memory = {.entry = memory_zeroed(FIRST_ROOM, sizeof(Entry)), .room = FIRST_ROOM};
    Task task = {columns, (int)depth, (int)depth, 0};
    if (columns > 1)
        least(&memory, task);
    make(&memory, task, prefix, prefix->whole);
    for (unsigned i = columns; i < columns + tail; i++)
        prefix_extend(prefix, i, i - 1);
    memory_free(memory.entry);
    prefix_refine(prefix, depth + tail);
}

const StructureMaker depth_structure = {.make = depth_make};
