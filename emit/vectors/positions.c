/* See positions.h. */
#include "vectors/positions.h"

#include <assert.h>
#include <stdbool.h>

Positions positions_of(unsigned width) {
    Positions positions = {.count = 0};
    for (unsigned at = 0; at < width; at++) {
        bool by_a_power = (at & (at - 1)) == 0 || (at & (at + 1)) == 0;
        if (width <= POSITIONS_MAX || by_a_power || at + 2 >= width)
            positions.at[positions.count++] = at;
    }
    assert(positions.count <= POSITIONS_MAX);
    return positions;
}
