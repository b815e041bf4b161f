/* The parts that need no thought about carries: nothing requested, corner values, walking bits. */
#include "vectors/parts.h"
#include "vectors/patterns.h"

#include <stddef.h>

/* ---- nothing requested --------------------------------------------------------------------- */

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
static bool idle_operands(Generator *generator, uint32_t control) {
    unsigned width = generator->unit->width;
    Vector *vector = &generator->vector;
    for (int extreme = 0; extreme <= 1; extreme++)
        for (int a = 1; a >= 0; a--)
            for (int b = generator->has_b ? 1 : 0; b >= 0; b--)
                for (int cin = 0; cin <= generator->has_cin; cin++) {
                    idle_operand(&vector->a, width, a == 1, extreme == 1);
                    idle_operand(&vector->b, width, b == 1, extreme == 1);
                    if (!part_send(generator, VECTOR_IDLE, control, cin == 1))
                        return false;
                }
    return true;
}

bool part_idle(Generator *generator) {
    const Unit *unit = generator->unit;
    for (uint32_t value = 0; value < UINT32_C(1) << unit_control_bits(unit); value++)
        if (is_worth_idling(unit, value) && !idle_operands(generator, value))
            return false;
    return true;
}

/* ---- corner values ------------------------------------------------------------------------- */

enum { CORNERS = 15 };

typedef struct {
    int count;
    Word value[CORNERS];
} Corners;

/* Keeps the last value of the list only if it is not there yet: in narrow words corners meet. */
static void keep_if_new(Corners *corners) {
    for (int k = 0; k < corners->count; k++)
        if (word_equal(&corners->value[k], &corners->value[corners->count]))
            return;
    corners->count++;
}

/* base + offset mod 2^n */
static void add_near(Corners *corners, const Word *base, int64_t offset) {
    Word distance;
    word_set(&distance, 64, (uint64_t)offset);
    word_resize_signed(&distance, &distance, base->width);
    word_add(&corners->value[corners->count], base, &distance, false);
    keep_if_new(corners);
}

static void add_pattern(Corners *corners, unsigned width, uint64_t bits) {
    pattern_repeat(&corners->value[corners->count], width, bits);
    keep_if_new(corners);
}

/* The ends of the unsigned range and of the signed range with their neighbours, bits that alternate
 * singly and in twos, fours and eights, and half a word of ones. */
static void corners_of(unsigned width, Corners *corners) {
    static const uint64_t alternating[] = {
        UINT64_C(0x5555555555555555), UINT64_C(0xaaaaaaaaaaaaaaaa), UINT64_C(0x3333333333333333),
        UINT64_C(0x0f0f0f0f0f0f0f0f), UINT64_C(0x00ff00ff00ff00ff)};
    Word base;
    corners->count = 0;
    word_zero(&base, width);
    for (int offset = -2; offset <= 2; offset++)
        add_near(corners, &base, offset);
    word_put(&base, width - 1, true);
    for (int offset = -1; offset <= 1; offset++)
        add_near(corners, &base, offset);
    for (size_t k = 0; k < sizeof alternating / sizeof *alternating; k++)
        add_pattern(corners, width, alternating[k]);
    pattern_low_ones(&base, width, width / 2);
    add_near(corners, &base, 0);
    word_not(&base, &base);
    add_near(corners, &base, 0);
}

static bool cross(Generator *generator, const Corners *corners, uint32_t control, bool cin) {
    Vector *vector = &generator->vector;
    unsigned width = generator->unit->width;
    int b_count = generator->has_b ? corners->count : 1;
    for (int a = 0; a < corners->count; a++)
        for (int b = 0; b < b_count; b++) {
            word_resize_unsigned(&vector->a, &corners->value[a], width);
            word_resize_unsigned(&vector->b, &corners->value[b], width);
            if (!part_send(generator, VECTOR_CORNER, control, cin))
                return false;
        }
    return true;
}

bool part_corners(Generator *generator) {
    const Unit *unit = generator->unit;
    Corners corners;
    corners_of(unit->width, &corners);
    for (int k = 0; k < unit->choice_count; k++)
        for (int cin = 0; cin <= generator->has_cin; cin++)
            if (!cross(generator, &corners, unit_control_value(unit, k), cin == 1))
                return false;
    return true;
}

/* ---- walking bits -------------------------------------------------------------------------- */

static void add_position(Positions *positions, unsigned at) {
    if (positions->count == 0 || at > positions->at[positions->count - 1])
        positions->at[positions->count++] = at;
}

void positions_of(unsigned width, Positions *positions) {
    positions->count = 0;
    if (width <= POSITIONS_MAX) {
        for (unsigned at = 0; at < width; at++)
            add_position(positions, at);
        return;
    }
    add_position(positions, 0);
    for (unsigned power = 2; power < width; power *= 2) {
        add_position(positions, power - 1);
        add_position(positions, power);
    }
    add_position(positions, width - 2);
    add_position(positions, width - 1);
}

/* One choice's walk of one operand while the other, if there is one, stands still. An operation
 * that reads cin gets the level that adds and borrows nothing, so that where the still word is 0
 * the walking bit arrives alone. */
typedef struct {
    int choice;
    bool first_carry;
    Word *moving;
} Walk;

/* One bit at the other level than all the rest, at each position. */
static bool walk_one_bit(Generator *generator, const Walk *walk, const Positions *positions) {
    for (int rest = 0; rest <= 1; rest++) {
        pattern_repeat(walk->moving, generator->unit->width, rest == 1 ? UINT64_MAX : 0);
        for (unsigned p = 0; p < positions->count; p++) {
            pattern_flip(walk->moving, positions->at[p]);
            bool more = part_send_choice(generator, VECTOR_WALK, walk->choice, walk->first_carry);
            pattern_flip(walk->moving, positions->at[p]);
            if (!more)
                return false;
        }
    }
    return true;
}

/* The number of each bit, spelled over several words: bit k of it in word k, and complements. */
static bool walk_indices(Generator *generator, const Walk *walk) {
    unsigned width = generator->unit->width;
    for (unsigned k = 0; k < pattern_index_count(width); k++) {
        pattern_index(walk->moving, width, k);
        for (int complement = 0; complement <= 1; complement++) {
            if (!part_send_choice(generator, VECTOR_WALK, walk->choice, walk->first_carry))
                return false;
            word_not(walk->moving, walk->moving);
        }
    }
    return true;
}

static bool walk_operand(Generator *generator, int choice, Word *moving, Word *still) {
    const Unit *unit = generator->unit;
    Walk walk = {choice, operation_facts(unit->choice[choice].operation)->subtracts, moving};
    Positions positions;
    positions_of(unit->width, &positions);
    for (int level = 0; level <= generator->has_b; level++) {
        pattern_repeat(still, unit->width, level == 1 ? UINT64_MAX : 0);
        if (!walk_one_bit(generator, &walk, &positions) || !walk_indices(generator, &walk))
            return false;
    }
    return true;
}

/* ---- all of it ----------------------------------------------------------------------------- */

/* Does the walk of an operand already give results of a single one, the other operand being 0? */
static bool operand_walks_result(Operation operation) {
    return operation != OP_INC && operation != OP_DEC && operation != OP_NEG;
}

static bool walk_result(Generator *generator, int choice) {
    Positions positions;
    positions_of(generator->unit->width, &positions);
    for (unsigned p = 0; p < positions.count; p++)
        if (!part_send_single_one(generator, VECTOR_WALK, choice, positions.at[p]))
            return false;
    return true;
}

bool part_walks(Generator *generator) {
    Vector *vector = &generator->vector;
    for (int k = 0; k < generator->unit->choice_count; k++) {
        if (!walk_operand(generator, k, &vector->a, &vector->b))
            return false;
        if (generator->has_b && !walk_operand(generator, k, &vector->b, &vector->a))
            return false;
        Operation operation = generator->unit->choice[k].operation;
        if (!operand_walks_result(operation) && !walk_result(generator, k))
            return false;
    }
    return true;
}
