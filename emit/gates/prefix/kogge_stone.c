/* Kogge and Stone's network: every column doubles its span at every level. The least depth, log2 n,
 * with n log2 n - n + 1 cells; no span is read by more than two others at a level.
 * P. M. Kogge, H. S. Stone, "A parallel algorithm for the efficient solution of a general class of
 * recurrence equations", IEEE Transactions on Computers, 1973. */
#include "gates/prefix/prefix.h"

void kogge_stone_make(Prefix *prefix, unsigned depth) {
    (void)depth;
    for (unsigned reach = 1; reach < prefix->columns; reach *= 2)
        for (unsigned i = prefix->columns - 1; i >= reach; i--) /* down: the level before is read */
            prefix_extend(prefix, i, i - reach);
}

const StructureMaker kogge_stone_structure = {.make = kogge_stone_make};
