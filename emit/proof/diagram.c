/* See diagram.h. Nodes stand in one array, found by a hash of what they are; results of operations
 * are remembered in a table of fixed size in which a new one takes an old one's place. */
#include "proof/diagram.h"

#include "base/memory.h"

#include <assert.h>
#include <string.h>

enum {
    FIRST_ROOM = 1 << 12,   /* nodes and places to begin with */
    MOST_RESULTS = 1 << 15, /* remembered at most, */
    TIDY_FROM = 1 << 15,    /* nodes; below this, forgetting is not worth the time */
    CONSTANT_LEVEL = 0xffff,
};

#define NOWHERE UINT32_MAX

typedef struct {
    Diagram low;
    Diagram high;
    uint32_t next; /* of the same hash, or the next free node */
    uint16_t level;
    bool marked;
} DiagramNode;

typedef enum { AND, XOR } Operator;

/* An operation remembered: x AND y with x below y, x XOR y with x above y; x is 0 where there is
 * none. */
typedef struct {
    Diagram x;
    Diagram y;
    Diagram value;
} Result;

/* An operation begun, while its operands' branches are looked at. */
typedef struct {
    Diagram x;
    Diagram y;
    Diagram low; /* DIAGRAM_NONE until it is known */
    uint16_t level;
    bool inverted; /* its value is to be inverted */
} Frame;

struct Diagrams {
    unsigned levels;
    DiagramLimits limits;
    DiagramNode *nodes;
    uint32_t *holds; /* of each node: how often it is held */
    uint32_t room;
    uint32_t end;  /* nodes from here on were never used */
    uint32_t free; /* a list of nodes used before, or NOWHERE */
    uint32_t in_use;
    uint32_t peak;
    uint32_t tidy_at;     /* nodes in use */
    uint32_t *places;     /* by hash: the first node, or NOWHERE */
    uint32_t place_count; /* a power of two */
    Result *results;
    uint32_t result_count; /* a power of two */
    Frame *frames;         /* one a level */
    uint32_t *waiting;     /* nodes, one a level, while marking */
    uint64_t steps;
};

Diagrams *diagram_open(unsigned levels, DiagramLimits limits) {
    assert(levels > 0 && levels <= DIAGRAM_LEVELS_MAX);
    Diagrams *diagrams = memory_zeroed(1, sizeof *diagrams);
    diagrams->levels = levels;
    diagrams->limits = limits;
    diagrams->room = FIRST_ROOM;
    diagrams->nodes = memory_zeroed(diagrams->room, sizeof diagrams->nodes[0]);
    diagrams->holds = memory_zeroed(diagrams->room, sizeof diagrams->holds[0]);
    diagrams->nodes[0].level = CONSTANT_LEVEL;
    diagrams->end = 1;
    diagrams->in_use = 1;
    diagrams->peak = 1;
    diagrams->free = NOWHERE;
    diagrams->tidy_at = TIDY_FROM;
    diagrams->place_count = FIRST_ROOM;
    diagrams->places = memory_resize(NULL, diagrams->place_count, sizeof diagrams->places[0]);
    memset(diagrams->places, 0xff, diagrams->place_count * sizeof diagrams->places[0]);
    diagrams->result_count = FIRST_ROOM;
    diagrams->results = memory_zeroed(diagrams->result_count, sizeof diagrams->results[0]);
    diagrams->frames = memory_zeroed(levels + 1, sizeof diagrams->frames[0]);
    diagrams->waiting = memory_zeroed(levels + 1, sizeof diagrams->waiting[0]);
    return diagrams;
}

void diagram_close(Diagrams *diagrams) {
    if (diagrams == NULL)
        return;
    memory_free(diagrams->nodes);
    memory_free(diagrams->holds);
    memory_free(diagrams->places);
    memory_free(diagrams->results);
    memory_free(diagrams->frames);
    memory_free(diagrams->waiting);
    memory_free(diagrams);
}

/* ---- nodes ---------------------------------------------------------------------------------- */

/* Nodes made one after the other stand beside one another: no more is asked of the hash, so that
 * what is looked for next is near, too. */
static uint32_t *place_of(const Diagrams *diagrams, unsigned level, Diagram low, Diagram high) {
    return &diagrams->places[(low * 3 + high * 5 + level) & (diagrams->place_count - 1)];
}

static void link_node(Diagrams *diagrams, uint32_t k) {
    DiagramNode *node = &diagrams->nodes[k];
    uint32_t *place = place_of(diagrams, node->level, node->low, node->high);
    node->next = *place;
    *place = k;
}

/* Twice the places, and as many results to remember up to a bound. */
static void grow_tables(Diagrams *diagrams) {
    memory_free(diagrams->places);
    diagrams->place_count *= 2;
    diagrams->places = memory_resize(NULL, diagrams->place_count, sizeof diagrams->places[0]);
    memset(diagrams->places, 0xff, diagrams->place_count * sizeof diagrams->places[0]);
    for (uint32_t k = 1; k < diagrams->end; k++)
        if (diagrams->nodes[k].level != CONSTANT_LEVEL)
            link_node(diagrams, k);
    if (diagrams->result_count >= MOST_RESULTS)
        return;
    memory_free(diagrams->results);
    diagrams->result_count *= 2;
    diagrams->results = memory_zeroed(diagrams->result_count, sizeof diagrams->results[0]);
}

/* A node without content, or NOWHERE where the limit is reached. */
static uint32_t new_node(Diagrams *diagrams) {
    uint32_t k = diagrams->free;
    if (k != NOWHERE) {
        diagrams->free = diagrams->nodes[k].next;
    } else {
        if (diagrams->end >= diagrams->limits.nodes)
            return NOWHERE;
        if (diagrams->end == diagrams->room) {
            diagrams->room *= 2;
            diagrams->nodes =
                memory_resize(diagrams->nodes, diagrams->room, sizeof diagrams->nodes[0]);
            diagrams->holds =
                memory_resize(diagrams->holds, diagrams->room, sizeof diagrams->holds[0]);
        }
        k = diagrams->end++;
        diagrams->holds[k] = 0;
    }
    if (++diagrams->in_use > diagrams->peak)
        diagrams->peak = diagrams->in_use;
    return k;
}

/* The node that is high where the variable of the level is 1 and low where it is 0. */
static Diagram make_node(Diagrams *diagrams, unsigned level, Diagram low, Diagram high) {
    if (low == DIAGRAM_NONE || high == DIAGRAM_NONE)
        return DIAGRAM_NONE;
    if (low == high)
        return low;
    Diagram inverted = low & 1u;
    low ^= inverted;
    high ^= inverted;
    for (uint32_t k = *place_of(diagrams, level, low, high); k != NOWHERE;
         k = diagrams->nodes[k].next) {
        const DiagramNode *node = &diagrams->nodes[k];
        if (node->low == low && node->high == high && node->level == level)
            return k * 2 + inverted;
    }
    if (diagrams->in_use >= diagrams->place_count)
        grow_tables(diagrams);
    uint32_t k = new_node(diagrams);
    if (k == NOWHERE)
        return DIAGRAM_NONE;
    diagrams->nodes[k] = (DiagramNode){.low = low, .high = high, .level = (uint16_t)level};
    link_node(diagrams, k);
    return k * 2 + inverted;
}

Diagram diagram_variable(Diagrams *diagrams, unsigned level) {
    assert(level < diagrams->levels);
    return make_node(diagrams, level, DIAGRAM_0, DIAGRAM_1);
}

static unsigned level_of(const Diagrams *diagrams, Diagram x) {
    return diagrams->nodes[x >> 1].level;
}

static Diagram branch(const Diagrams *diagrams, Diagram x, unsigned level, bool value) {
    const DiagramNode *node = &diagrams->nodes[x >> 1];
    if (node->level != level)
        return x;
    return (value ? node->high : node->low) ^ (x & 1u);
}

/* ---- operations ----------------------------------------------------------------------------- */

static void swap(Diagram *x, Diagram *y) {
    Diagram kept = *x;
    *x = *y;
    *y = kept;
}

/* The value where the operands alone decide, else DIAGRAM_NONE; then the operands are in the order
 * in which results are remembered. */
static Diagram decide_and(Diagram *x, Diagram *y) {
    if (*x > *y)
        swap(x, y);
    if (*x == *y)
        return *x;
    if ((*x ^ *y) == 1u || *x == DIAGRAM_0)
        return DIAGRAM_0;
    return *x == DIAGRAM_1 ? *y : DIAGRAM_NONE;
}

/* The same of XOR, whose inversions the value takes over. */
static Diagram decide_xor(Diagram *x, Diagram *y, bool *inverted) {
    *inverted = ((*x ^ *y) & 1u) != 0;
    *x &= ~1u;
    *y &= ~1u;
    if (*x < *y)
        swap(x, y);
    if (*x == *y)
        return *inverted;
    return *y == DIAGRAM_0 ? *x ^ (Diagram)*inverted : DIAGRAM_NONE;
}

static Result *result_of(const Diagrams *diagrams, Diagram x, Diagram y) {
    return &diagrams->results[(x * 3 + y * 5) & (diagrams->result_count - 1)];
}

/* The value where it is known at once; else it begins: a frame that asks for its low branch. */
static Diagram begin(Diagrams *diagrams, Operator kind, Diagram x, Diagram y, Frame *frame) {
    bool inverted = false;
    Diagram value = kind == AND ? decide_and(&x, &y) : decide_xor(&x, &y, &inverted);
    if (value != DIAGRAM_NONE)
        return value;
    const Result *result = result_of(diagrams, x, y);
    if (result->x == x && result->y == y)
        return result->value ^ (Diagram)inverted;
    unsigned left = level_of(diagrams, x), right = level_of(diagrams, y);
    *frame = (Frame){x, y, DIAGRAM_NONE, (uint16_t)(left < right ? left : right), inverted};
    diagrams->steps++;
    return DIAGRAM_NONE;
}

/* The frame's value, both of whose branches are known. */
static Diagram end(Diagrams *diagrams, const Frame *frame, Diagram high) {
    Diagram value = make_node(diagrams, frame->level, frame->low, high);
    if (value == DIAGRAM_NONE)
        return value;
    *result_of(diagrams, frame->x, frame->y) = (Result){frame->x, frame->y, value};
    return value ^ (Diagram)frame->inverted;
}

static Diagram apply(Diagrams *diagrams, Operator kind, Diagram x, Diagram y) {
    if (x == DIAGRAM_NONE || y == DIAGRAM_NONE)
        return DIAGRAM_NONE;
    Frame *frame = diagrams->frames; /* the next free one */
    while (diagrams->steps <= diagrams->limits.steps) {
        Diagram value = begin(diagrams, kind, x, y, frame);
        if (value == DIAGRAM_NONE) {
            x = branch(diagrams, frame->x, frame->level, false);
            y = branch(diagrams, frame->y, frame->level, false);
            frame++;
            continue;
        }
        while (frame > diagrams->frames && frame[-1].low != DIAGRAM_NONE) {
            frame--;
            value = end(diagrams, frame, value);
            if (value == DIAGRAM_NONE)
                return value;
        }
        if (frame == diagrams->frames)
            return value;
        frame[-1].low = value;
        x = branch(diagrams, frame[-1].x, frame[-1].level, true);
        y = branch(diagrams, frame[-1].y, frame[-1].level, true);
    }
    return DIAGRAM_NONE;
}

Diagram diagram_and(Diagrams *diagrams, Diagram x, Diagram y) {
    return apply(diagrams, AND, x, y);
}

Diagram diagram_or(Diagrams *diagrams, Diagram x, Diagram y) {
    return diagram_not(apply(diagrams, AND, diagram_not(x), diagram_not(y)));
}

Diagram diagram_xor(Diagrams *diagrams, Diagram x, Diagram y) {
    return apply(diagrams, XOR, x, y);
}

/* Is this a variable, or its inverse, above the other two diagrams? */
static bool is_variable_above(const Diagrams *diagrams, Diagram x, Diagram y, Diagram z) {
    const DiagramNode *node = &diagrams->nodes[x >> 1];
    return node->low == DIAGRAM_0 && node->high == DIAGRAM_1 &&
           node->level < level_of(diagrams, y) && node->level < level_of(diagrams, z);
}

Diagram diagram_if(Diagrams *diagrams, Diagram condition, Diagram then, Diagram otherwise) {
    if (condition == DIAGRAM_NONE || then == DIAGRAM_NONE || otherwise == DIAGRAM_NONE)
        return DIAGRAM_NONE;
    if (is_variable_above(diagrams, condition, then, otherwise)) {
        bool inverted = (condition & 1u) != 0;
        return make_node(diagrams, level_of(diagrams, condition), inverted ? then : otherwise,
                         inverted ? otherwise : then);
    }
    Diagram yes = diagram_and(diagrams, condition, then);
    Diagram no = diagram_and(diagrams, diagram_not(condition), otherwise);
    return diagram_or(diagrams, yes, no);
}

/* ---- what is kept --------------------------------------------------------------------------- */

static bool is_node(Diagram x) {
    return x > DIAGRAM_1 && x != DIAGRAM_NONE;
}

Diagram diagram_hold(Diagrams *diagrams, Diagram x) {
    if (is_node(x))
        diagrams->holds[x >> 1]++;
    return x;
}

void diagram_drop(Diagrams *diagrams, Diagram x) {
    if (!is_node(x))
        return;
    assert(diagrams->holds[x >> 1] > 0);
    diagrams->holds[x >> 1]--;
}

/* Marks a node and all below it. A node waits while its low branch is walked: one a level. */
static void mark(Diagrams *diagrams, uint32_t k) {
    uint32_t waiting = 0;
    for (;;) {
        DiagramNode *node = &diagrams->nodes[k];
        if (!node->marked && node->level != CONSTANT_LEVEL) {
            node->marked = true;
            diagrams->waiting[waiting++] = node->high >> 1;
            k = node->low >> 1;
        } else if (waiting > 0) {
            k = diagrams->waiting[--waiting];
        } else {
            return;
        }
    }
}

/* Every node that is not marked joins the free ones; the others are linked anew. */
static void sweep(Diagrams *diagrams) {
    memset(diagrams->places, 0xff, diagrams->place_count * sizeof diagrams->places[0]);
    diagrams->free = NOWHERE;
    diagrams->in_use = 1;
    for (uint32_t k = diagrams->end; k-- > 1;) {
        DiagramNode *node = &diagrams->nodes[k];
        if (node->marked) {
            node->marked = false;
            link_node(diagrams, k);
            diagrams->in_use++;
        } else {
            *node = (DiagramNode){.level = CONSTANT_LEVEL, .next = diagrams->free};
            diagrams->free = k;
        }
    }
    memset(diagrams->results, 0, diagrams->result_count * sizeof diagrams->results[0]);
}

void diagram_tidy(Diagrams *diagrams, bool force) {
    if (diagrams->in_use < diagrams->tidy_at && !force)
        return;
    for (uint32_t k = 1; k < diagrams->end; k++)
        if (diagrams->holds[k] > 0)
            mark(diagrams, k);
    sweep(diagrams);
    diagrams->tidy_at = diagrams->in_use < TIDY_FROM / 2 ? TIDY_FROM : diagrams->in_use * 2;
}

/* ---- questions ------------------------------------------------------------------------------ */

void diagram_example(const Diagrams *diagrams, Diagram x, bool *level) {
    assert(x != DIAGRAM_0 && x != DIAGRAM_NONE);
    memset(level, 0, diagrams->levels * sizeof level[0]);
    while (x != DIAGRAM_1) {
        unsigned at = level_of(diagrams, x);
        Diagram low = branch(diagrams, x, at, false);
        level[at] = low == DIAGRAM_0;
        x = level[at] ? branch(diagrams, x, at, true) : low;
    }
}

unsigned diagram_level(const Diagrams *diagrams, Diagram x) {
    unsigned level = level_of(diagrams, x);
    return level == CONSTANT_LEVEL ? diagrams->levels : level;
}

Diagram diagram_branch(const Diagrams *diagrams, Diagram x, unsigned level, bool value) {
    return branch(diagrams, x, level, value);
}

uint32_t diagram_peak(const Diagrams *diagrams) {
    return diagrams->peak;
}

uint64_t diagram_steps(const Diagrams *diagrams) {
    return diagrams->steps;
}

unsigned diagram_levels(const Diagrams *diagrams) {
    return diagrams->levels;
}

uint32_t diagram_end(const Diagrams *diagrams) {
    return diagrams->end;
}
