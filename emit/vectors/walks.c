/* The part of walking bits. */
#include "vectors/parts.h"
#include "vectors/patterns.h"
#include "vectors/positions.h"
#include "vectors/results.h"

/* One choice's walk of one operand while the other, if there is one, stands still. An operation
 * that reads cin gets the level that adds and borrows nothing, so that where the still word is 0
 * the walking bit arrives alone. */
typedef struct {
    int choice;
    bool first_carry;
    Word *moving;
} Walk;

/* One bit at the other level than all the rest, at each position. */
static void walk_one_bit(Generator *generator, const Walk *walk, const Positions *positions) {
    for (int rest = 0; rest <= 1; rest++) {
        pattern_repeat(walk->moving, generator->unit->width, rest == 1 ? UINT64_MAX : 0);
        for (unsigned p = 0; p < positions->count; p++) {
            pattern_flip(walk->moving, positions->at[p]);
            generator_send_choice(generator, VECTOR_WALK, walk->choice, walk->first_carry);
            pattern_flip(walk->moving, positions->at[p]);
        }
    }
}

/* The number of each bit, spelled over several words: bit k of it in word k, and complements. */
static void walk_indices(Generator *generator, const Walk *walk) {
    unsigned width = generator->unit->width;
    for (unsigned k = 0; k < pattern_index_count(width); k++) {
        pattern_index(walk->moving, width, k);
        for (int complement = 0; complement <= 1; complement++) {
            generator_send_choice(generator, VECTOR_WALK, walk->choice, walk->first_carry);
            word_not(walk->moving, walk->moving);
        }
    }
}

static void walk_operand(Generator *generator, int choice, Word *moving, Word *still) {
    Walk walk = {choice, adder_first_at_rest(generator_operation(generator, choice)), moving};
    Positions positions = positions_of(generator->unit->width);
    for (int level = 0; level <= generator->has_b; level++) {
        pattern_repeat(still, generator->unit->width, level == 1 ? UINT64_MAX : 0);
        walk_one_bit(generator, &walk, &positions);
        walk_indices(generator, &walk);
    }
}

void part_walks(Generator *generator) {
    Vector *vector = &generator->vector;
    Positions positions = positions_of(generator->unit->width);
    for (int k = 0; k < generator->unit->choice_count; k++) {
        walk_operand(generator, k, &vector->a, &vector->b);
        if (generator->has_b)
            walk_operand(generator, k, &vector->b, &vector->a);
        /* Where the operand's walk has not given results of a single one already. */
        for (unsigned p = 0; p < positions.count; p++)
            if (!result_is_operand(generator_operation(generator, k)))
                result_send_single_one(generator, VECTOR_WALK, k, positions.at[p]);
    }
}
