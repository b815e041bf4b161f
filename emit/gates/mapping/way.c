/* See way.h. */
#include "gates/mapping/way.h"

#include <assert.h>

bool way_inverts(int way) {
    return way >= WAY_APART ? way == WAY_APART_INVERSE : ((way ^ way >> 1) & 1) != 0;
}

int way_base(int way) {
    assert(way >= 0 && way < WAYS);
    if (way < WAY_APART)
        return way;
    return way == WAY_APART ? 0 : SHAPE_INVERT_Y;
}

static bool reads_xor(const Wanted *wanted) {
    return wanted->differ[0] || wanted->differ[1];
}

static Effort through_product(const Wanted *wanted, int way, bool through_y) {
    bool invert_x = (way & SHAPE_INVERT_X) != 0, invert_y = (way & SHAPE_INVERT_Y) != 0;
    Set first = 1u << way, by_y = 1u << (way ^ 1), by_x = 1u << (way ^ 2), last = 1u << (way ^ 3);
    Effort effort = {.made = wanted->inverses | wanted->plain};
    if (reads_xor(wanted))
        effort.made |= by_x | by_y;
    if (effort.made & last) {
        effort.made |= through_y ? by_x : by_y;
        effort.terms |= through_y ? way_term(1, !invert_y) : way_term(0, !invert_x);
    }
    if (effort.made & (by_x | by_y))
        effort.made |= first;
    if (effort.made & (first | by_x))
        effort.terms |= way_term(0, invert_x);
    if (effort.made & (first | by_y))
        effort.terms |= way_term(1, invert_y);
    return effort;
}

static Effort apart(const Wanted *wanted, int way) {
    Effort effort = {.made = wanted->inverses | wanted->plain};
    int base = way_base(way);
    if (reads_xor(wanted))
        effort.made |= 1u << (base ^ 1) | 1u << (base ^ 2);
    for (int shape = 0; shape < SHAPE_PRODUCTS; shape++)
        if (effort.made >> shape & 1)
            effort.terms |= way_term(0, (shape & SHAPE_INVERT_X) != 0) |
                            way_term(1, (shape & SHAPE_INVERT_Y) != 0);
    return effort;
}

static unsigned count_bits(Set set) {
    unsigned count = 0;
    for (; set != 0; set &= set - 1)
        count++;
    return count;
}

Effort way_effort(const Wanted *wanted, int way, bool through_y) {
    assert(way >= 0 && way < WAYS);
    Effort effort = way < WAY_APART ? through_product(wanted, way, through_y) : apart(wanted, way);
    effort.gates = count_bits(effort.made) + count_bits(wanted->plain);
    if (reads_xor(wanted))
        effort.gates += wanted->differ[!way_inverts(way)] ? 2 : 1;
    return effort;
}
