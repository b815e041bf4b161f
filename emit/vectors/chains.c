/* Carry chains: from where a carry starts, through columns that pass it on, to where it stops.
 *
 * A chain carries a level, 1 or 0: the 0 that travels where everything else carries 1 is as easily
 * lost as the 1 among zeros, and in a subtraction it is the borrow. */
#include "vectors/columns.h"
#include "vectors/parts.h"
#include "vectors/patterns.h"
#include "vectors/positions.h"

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

static void send_chain(Generator *generator, int choice, const Columns *columns, bool first_carry) {
    columns_to_operands(generator_operation(generator, choice), columns, &generator->vector.a,
                        &generator->vector.b);
    generator_send_choice(generator, VECTOR_CHAIN, choice, first_carry);
}

/* A result that saturates hides the carries below it. In wide words, which have few chains, the
 * last column then keeps it in range a second time. */
static bool hides_results(const Unit *unit) {
    return unit->overflow == OVERFLOW_SATURATE_UNSIGNED && unit->width > POSITIONS_MAX;
}

/* The chain from begin to end in one variant, where the operation's first carry allows it: of 1 or
 * of 0, among columns that force the opposite or through columns that pass carries on. The placing
 * changes with the begin only: from one end to the next few columns change, so that a simulator
 * that follows every event has little to do. */
static void chain_between(Generator *generator, int choice, int variant, unsigned begin,
                          unsigned end) {
    Operation operation = generator_operation(generator, choice);
    Chain chain = {begin, end, variant % 2 == 0, variant >= 2};
    bool first_carry = first_carry_for(&chain);
    bool possible = operation_facts(operation)->reads_cin || first_carry_is_free(&chain) ||
                    first_carry == adder_first_at_rest(operation);
    if (!possible)
        return;
    unsigned placing = chain.through ? 2 : (unsigned)variant; /* of three variants, three */
    Columns columns;
    columns_of_chain(&chain, generator->unit->width, (begin + placing) % PLACINGS, &columns);
    send_chain(generator, choice, &columns, first_carry);
    unsigned last = generator->unit->width - 1;
    if (!hides_results(generator->unit) || begin > last)
        return;
    word_put(&columns.propagate, last, false);
    word_put(&columns.level, last, operation_facts(operation)->subtracts);
    send_chain(generator, choice, &columns, first_carry);
}

enum { EACH_COLUMN_MAX = 1024 }; /* bits; beyond, the file would be far larger than the unit */

/* In words too wide for every start with every end, up to EACH_COLUMN_MAX bits: each column starts
 * a chain to the end of the word and, where all other columns pass carries on, one to its neighbour
 * and stops one from below all and one from the lowest column. Structures that jump over groups of
 * columns, of any size, need no more. */
static void chains_at(Generator *generator, int choice, int variant, unsigned column) {
    unsigned width = generator->unit->width;
    if (variant < 2) {
        chain_between(generator, choice, variant, column + 1, width);
        return;
    }
    chain_between(generator, choice, variant, 0, column + 1);
    chain_between(generator, choice, variant, column == 0 ? 0 : 1, column + 1);
    chain_between(generator, choice, variant, column + 1, column + 2 < width ? column + 2 : width);
}

/* An operation that reads a only cannot start a chain in a column of its choice. That leaves few,
 * and among columns that force the opposite every one is sent, in wide words too: nothing else
 * gives the last column a carry and no one of its own. */
static void chains_of_variant(Generator *generator, int choice, int variant,
                              const Positions *positions) {
    unsigned width = generator->unit->width;
    bool reads_b = operation_facts(generator_operation(generator, choice))->reads_b;
    bool every = !reads_b && (variant < 2 || width <= EACH_COLUMN_MAX);
    for (unsigned j = 0; j < (every ? width : positions->count); j++)
        chain_between(generator, choice, variant, 0, (every ? j : positions->at[j]) + 1);
    if (!reads_b)
        return;
    if (width > POSITIONS_MAX && width <= EACH_COLUMN_MAX)
        for (unsigned j = 0; j < width; j++)
            chains_at(generator, choice, variant, j);
    for (unsigned i = 0; i < positions->count; i++)
        for (unsigned j = i; j < positions->count; j++)
            chain_between(generator, choice, variant, positions->at[i] + 1, positions->at[j] + 1);
}

void part_chains(Generator *generator) {
    Positions positions = positions_of(generator->unit->width);
    for (int k = 0; k < generator->unit->choice_count; k++)
        for (int variant = 0; variant < 4; variant++)
            chains_of_variant(generator, k, variant, &positions);
}
