/* The part with nothing requested, which must give nothing whatever the operands. */
#include "vectors/parts.h"
#include "vectors/patterns.h"

/* A field of at most this many bits is driven with every code. */
enum { IDLE_FIELD_BITS = 6 };

/* Does the value differ from some operation's in exactly one bit? A decoder that overlooks that bit
 * takes the one for the other. */
static bool is_next_to_an_operation(const Unit *unit, uint32_t value) {
    for (int k = 0; k < unit->choice_count; k++) {
        uint32_t differing = value ^ unit_control_value(unit, k);
        if (differing != 0 && (differing & (differing - 1)) == 0)
            return true;
    }
    return false;
}

static bool is_worth_idling(const Unit *unit, uint32_t value) {
    uint32_t all_ones = (UINT32_C(1) << unit_control_bits(unit)) - 1;
    if (!unit_control_is_contract(unit, value) || unit_control_choice(unit, value) != UNIT_NOTHING)
        return false;
    return unit_control_bits(unit) <= IDLE_FIELD_BITS || value == 0 || value == all_ones ||
           is_next_to_an_operation(unit, value);
}

/* The operand is all ones or all zeros or, at an extreme, the opposite in the sign bit. */
static void idle_operand(Word *word, unsigned width, bool ones, bool extreme) {
    pattern_repeat(word, width, ones ? UINT64_MAX : 0);
    if (extreme)
        pattern_flip(word, width - 1);
}

/* All ones and all zeros in both operands, and the ends of the signed range, which overflow; the
 * result and the flags must be 0 all the same. */
static void idle_operands(Generator *generator, uint32_t control) {
    unsigned width = generator->unit->width;
    Vector *vector = &generator->vector;
    for (int extreme = 0; extreme <= 1; extreme++)
        for (int a = 1; a >= 0; a--)
            for (int b = generator->has_b ? 1 : 0; b >= 0; b--)
                for (int cin = 0; cin <= generator->has_cin; cin++) {
                    idle_operand(&vector->a, width, a == 1, extreme == 1);
                    idle_operand(&vector->b, width, b == 1, extreme == 1);
                    generator_send(generator, VECTOR_IDLE, control, cin == 1);
                }
}

void part_idle(Generator *generator) {
    const Unit *unit = generator->unit;
    for (uint32_t value = 0; value < UINT32_C(1) << unit_control_bits(unit); value++)
        if (is_worth_idling(unit, value))
            idle_operands(generator, value);
}
