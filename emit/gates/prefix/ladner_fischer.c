/* Ladner and Fischer's network of the least depth, log2 n: the lower half may take a level more for
 * all of its columns but the last, and so is built over pairs. 4n - F(5 + log2 n) + 1 cells, F the
 * Fibonacci numbers: 31, 74, 168 and 369 at 16, 32, 64 and 128 columns.
 * R. E. Ladner, M. J. Fischer, "Parallel prefix computation", Journal of the ACM, 1980 (the formula
 * from memory). */
#include "base/memory.h"
#include "gates/prefix/prefix.h"

#include <assert.h>

static void halves(Prefix *prefix, uint32_t *node, size_t count);

/* Of a power of two columns: all within a level more than the least depth, the last one within it.
 */
static void pairs(Prefix *prefix, uint32_t *node, size_t count) {
    assert((count & (count - 1)) == 0);
    if (count < 2)
        return;
    size_t pair_count = count / 2;
    uint32_t *pair = memory_zeroed(pair_count, sizeof *pair);
    for (size_t k = 0; k < pair_count; k++)
        pair[k] = prefix_join(prefix, node[2 * k + 1], node[2 * k]);
    halves(prefix, pair, pair_count);
    for (size_t k = 0; k < pair_count; k++)
        node[2 * k + 1] = pair[k];
    for (size_t k = 1; k < pair_count; k++)
        node[2 * k] = prefix_join(prefix, node[2 * k], pair[k - 1]);
    memory_free(pair);
}

/* All columns within the least depth. node[i], a column or a span, becomes the join of i ... 0. */
static void halves(Prefix *prefix, uint32_t *node, size_t count) {
    if (count < 2)
        return;
    size_t lower =
        (size_t)1 << (prefix_least_depth((unsigned)count) - 1); /* the greatest power of 2 below */
    pairs(prefix, node, lower);
    halves(prefix, node + lower, count - lower);
    for (size_t i = lower; i < count; i++)
        node[i] = prefix_join(prefix, node[i], node[lower - 1]);
}

void ladner_fischer_make(Prefix *prefix, unsigned depth) {
    (void)depth;
    halves(prefix, prefix->whole, prefix->columns);
}

const StructureMaker ladner_fischer_structure = {.make = ladner_fischer_make};
