/* Han and Carlson's network: pairs of columns, Kogge and Stone's network over the pairs, then the
 * columns in between. log2 n + 1 levels with (n/2) log2 n cells: one level more than Kogge and
 * Stone, half the cells. T. Han, D. A. Carlson, "Fast area-efficient VLSI adders", IEEE Symposium
 * on Computer Arithmetic, 1987. */
#include "gates/prefix/prefix.h"

void han_carlson_make(Prefix *prefix, unsigned depth) {
    (void)depth;
    unsigned n = prefix->columns;
    for (unsigned i = 1; i < n; i += 2)
        prefix_extend(prefix, i, i - 1);
    unsigned last = n % 2 == 0 ? n - 1 : n - 2; /* the highest upper half of a pair */
    for (unsigned reach = 2; reach < n; reach *= 2)
        for (unsigned i = last; i > reach && i < n; i -= 2)
            prefix_extend(prefix, i, i - reach);
    for (unsigned i = 2; i < n; i += 2)
        prefix_extend(prefix, i, i - 1);
}

const StructureMaker han_carlson_structure = {.make = han_carlson_make};
