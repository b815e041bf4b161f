/* See bound.h. */
#include "gates/bound.h"

#include <assert.h>

static bool does(const Unit *unit, Operation operation) {
    for (int k = 0; k < unit->choice_count; k++)
        if (unit->choice[k].operation == operation)
            return true;
    return false;
}

/* An adder of n bits with n + 1 outputs takes 5n - 3 gates (N. P. Red'kin, 1981; restated in
 * Goncharov, Kulikov, Levtsov, "Smaller Circuits for Bit Addition", STACS 2026). Whoever has a unit
 * that adds and shows the carry has such an adder: hold the control and cin pins at the levels that
 * ask for a + b, and leave other outputs alone. a - b = not (not a + b), borrow for carry, is the
 * same circuit with pins turned over, which takes no gate. */
static bool holds_an_adder(const Unit *unit) {
    bool adds = does(unit, OP_ADD) || does(unit, OP_ADC) || does(unit, OP_SUB) ||
                does(unit, OP_SBC) || does(unit, OP_RSB);
    return adds && unit->flag[FLAG_CARRY] && unit->overflow == OVERFLOW_WRAP;
}

/* The adder-subtractor of two bits with one control line: exhaustive SAT search for a smaller
 * circuit finds none (tests/outside repeats it). Further outputs need no fewer gates. */
static uint32_t two_bits(const Unit *unit) {
    bool one_line = unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW;
    if (unit->width != 2 || !one_line || !does(unit, OP_ADD) || !does(unit, OP_SUB) ||
        unit->overflow != OVERFLOW_WRAP)
        return 0;
    return unit->flag[FLAG_CARRY] ? 9 : unit->flag[FLAG_OVERFLOW] ? 8 : 5;
}

/* k levels of two-input gates join at most 2^k inputs, and the sign bit of the result depends on
 * every bit of the operands, on cin, and on every control pin: no two operations agree on it from
 * three bits on (a + 1 and -a do at two). Not where results are held at a limit, nor where a alone
 * is passed on. */
static void find_levels(const Unit *unit, Bound *bound) {
    if (unit->overflow != OVERFLOW_WRAP || (unit->choice_count == 1 && does(unit, OP_PASS)))
        return;
    bound->inputs = unit->width * (unit_any_reads_b(unit) ? 2 : 1);
    if (unit->width > 2)
        bound->inputs += unit_control_bits(unit) + unit_any_reads_cin(unit);
    while ((UINT32_C(1) << bound->levels) < bound->inputs)
        bound->levels++;
}

Bound bound_of(const Unit *unit) {
    Bound bound = {.proof = ""};
    find_levels(unit, &bound);
    if (holds_an_adder(unit)) {
        bound.gates = 5 * unit->width - 3;
        bound.proof = "5n - 3 for its adder (Red'kin 1981)";
    }
    uint32_t searched = two_bits(unit);
    if (searched > bound.gates) {
        bound.gates = searched;
        bound.proof = "exhaustive SAT search";
    }
    return bound;
}

uint32_t bound_prefix_cells(uint32_t columns, uint32_t depth) {
    assert(columns > 0);
    uint32_t least = columns - 1;
    return depth < least ? 2 * least - depth : least;
}
