/* Brent and Kung's network: pairs, pairs of pairs and so on up, then the columns in between on the
 * way down. 2n - 2 - log2 n cells in 2 log2 n - 2 levels.
 * R. P. Brent, H. T. Kung, "A regular layout for parallel adders", IEEE Transactions on Computers,
 * 1982. */
#include "gates/prefix/prefix.h"

void brent_kung_make(Prefix *prefix, unsigned depth) {
    (void)depth;
    unsigned n = prefix->columns, reach = 1;
    for (; reach < n; reach *= 2)
        for (unsigned i = 2 * reach - 1; i < n; i += 2 * reach)
            prefix_extend(prefix, i, i - reach);
    for (; reach > 0; reach /= 2)
        for (unsigned i = 3 * reach - 1; i < n; i += 2 * reach)
            prefix_extend(prefix, i, i - reach);
}

const StructureMaker brent_kung_structure = {.make = brent_kung_make};
