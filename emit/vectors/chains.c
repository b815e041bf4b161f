/* Carry chains: from where a carry starts, through columns that pass it on, to where it stops.
 *
 * A chain carries a level, 1 or 0: the 0 that travels where everything else carries 1 is as easily
 * lost as the 1 among zeros, and in a subtraction it is the borrow. */
#include "vectors/columns.h"
#include "vectors/parts.h"
#include "vectors/patterns.h"

/* Columns begin ... end - 1 pass the carry on. Column begin - 1 forces it to the level, or where
 * begin is 0 the first carry is that level. Column end, if the word has one, forces the opposite.
 */
typedef struct {
    unsigned begin;
    unsigned end;
    bool level;
    bool through; /* all other columns pass carries on too; otherwise they force the opposite */
} Chain;

/* Where the ones of passing columns stand: in x, in y, by turns. */
enum { PLACINGS = 3 };
static const uint64_t placings[PLACINGS] = {UINT64_MAX, 0, UINT64_C(0x5555555555555555)};

static void columns_of_chain(const Chain *chain, unsigned width, unsigned placing,
                             Columns *columns) {
    Word below;
    pattern_repeat(&columns->in_x, width, placings[placing]);
    pattern_repeat(&columns->level, width, chain->level ? 0 : UINT64_MAX);
    if (chain->through) {
        word_ones(&columns->propagate, width);
        if (chain->end < width)
            word_put(&columns->propagate, chain->end, false);
    } else {
        pattern_low_ones(&columns->propagate, width, chain->end);
        pattern_low_ones(&below, width, chain->begin);
        word_xor(&columns->propagate, &columns->propagate, &below);
    }
    if (chain->begin > 0) {
        word_put(&columns->propagate, chain->begin - 1, false);
        word_put(&columns->level, chain->begin - 1, chain->level);
    }
}

/* The first carry that the chain asks for. It is the level where it starts the chain. It is the
 * opposite where it travels up to the chain's start, which would not be seen to force anything
 * otherwise. Where columns below the chain force the opposite it is free; the level, then, shows
 * that the lowest column stops it. */
static bool first_carry_for(const Chain *chain) {
    bool travels_to_the_start = chain->through && chain->begin > 0;
    return chain->level != travels_to_the_start;
}

static bool first_carry_is_free(const Chain *chain) {
    return !chain->through && chain->begin > 0;
}

/* The chains from begin to end that the operation's first carry allows: among columns that force
 * the opposite and through columns that pass carries on, of 1 and of 0. Every next one has another
 * placing, and every next begin or end starts with another. */
static bool chains_between(Generator *generator, int choice, unsigned begin, unsigned end) {
    Operation operation = generator->unit->choice[choice].operation;
    bool reads_cin = operation_facts(operation)->reads_cin;
    unsigned placing = (begin + end) % PLACINGS;
    for (int variant = 0; variant < 4; variant++) {
        Chain chain = {begin, end, variant % 2 == 0, variant >= 2};
        bool first_carry = first_carry_for(&chain);
        bool possible = reads_cin || first_carry_is_free(&chain) ||
                        first_carry == columns_first_carry(operation);
        if (!possible)
            continue;
        Columns columns;
        columns_of_chain(&chain, generator->unit->width, placing, &columns);
        columns_to_operands(operation, &columns, &generator->vector.a, &generator->vector.b);
        if (!part_send_choice(generator, VECTOR_CHAIN, choice, first_carry))
            return false;
        placing = (placing + 1) % PLACINGS;
    }
    return true;
}

/* An operation that reads a only cannot start a chain in a column of its choice. */
static bool chains_of_choice(Generator *generator, int choice, const Positions *positions) {
    bool reads_b = operation_facts(generator->unit->choice[choice].operation)->reads_b;
    for (unsigned j = 0; j < positions->count; j++)
        if (!chains_between(generator, choice, 0, positions->at[j] + 1))
            return false;
    for (unsigned i = 0; reads_b && i < positions->count; i++)
        for (unsigned j = i; j < positions->count; j++)
            if (!chains_between(generator, choice, positions->at[i] + 1, positions->at[j] + 1))
                return false;
    return true;
}

bool part_chains(Generator *generator) {
    Positions positions;
    positions_of(generator->unit->width, &positions);
    for (int k = 0; k < generator->unit->choice_count; k++)
        if (!chains_of_choice(generator, k, &positions))
            return false;
    return true;
}
