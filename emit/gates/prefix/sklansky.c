/* Sklansky's network: ever larger halves, the upper ones joined to the last column below them. The
 * least depth, log2 n, with (n/2) log2 n cells; a span is read by up to n/2 others.
 * J. Sklansky, "Conditional-sum addition logic", IRE Transactions on Electronic Computers, 1960
 * (counts: facts of the trade, from memory). */
#include "gates/prefix/prefix.h"

void sklansky_make(Prefix *prefix, unsigned depth) {
    (void)depth;
    for (unsigned half = 1; half < prefix->columns; half *= 2)
        for (unsigned i = half; i < prefix->columns; i++)
            if (i / half % 2 == 1)
                prefix_extend(prefix, i, i / half * half - 1);
}

const StructureMaker sklansky_structure = {.make = sklansky_make};
