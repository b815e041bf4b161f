/* See questions.h. */
#include "lesson/questions.h"

#include "vectors/columns.h"
#include "vectors/random.h"

#include <assert.h>

enum { TRIES = 400 }; /* operands for an aim, before the next operation has its turn */

/* ---- what happens --------------------------------------------------------------------------- */

/* A run of columns that each pass on a carry of 1 is as long as half of the word. */
static bool is_chain(const Working *working) {
    unsigned width = working->unit->width, run = 0, longest = 0;
    for (unsigned i = 0; i < width; i++) {
        bool passes = word_bit(&working->carry, i) && word_bit(&working->carry, i + 1) &&
                      word_bit(&working->operand[0], i) != word_bit(&working->operand[1], i);
        run = passes ? run + 1 : 0;
        longest = run > longest ? run : longest;
    }
    return 2 * longest >= width;
}

static bool overflows(const Working *working) {
    return working_carry_in(working) != working_carry_out(working);
}

/* The exact result is below 0: its sign bit. */
static bool below(const Word *exact) {
    return word_bit(exact, exact->width - 1);
}

static bool is_overflow_above(const Working *working) {
    return overflows(working) && !below(&working->exact_signed);
}

static bool is_overflow_below(const Working *working) {
    return overflows(working) && below(&working->exact_signed);
}

static bool is_borrow(const Working *working) {
    return below(&working->exact_unsigned);
}

static bool is_carry(const Working *working) {
    return !is_borrow(working) && word_bit(&working->exact_unsigned, working->unit->width);
}

static bool is_negative(const Working *working) {
    return !overflows(working) && below(&working->exact_signed);
}

#define AIM_ROW(ID, id, ...) [AIM_##ID] = is_##id,
static bool (*const meets[AIM_COUNT])(const Working *working) = {AIMS(AIM_ROW)};

bool question_meets(const Working *working, Aim aim) {
    return meets[aim](working);
}

/* ---- operands ------------------------------------------------------------------------------- */

static void random_word(Random *random, unsigned width, Word *word) {
    word_set(word, width, random_next(random));
}

/* Most columns pass the carry on. */
static void long_chain(Random *random, const Unit *unit, Operation operation, Word *a, Word *b) {
    Columns columns;
    Word more;
    random_word(random, unit->width, &columns.propagate);
    random_word(random, unit->width, &more);
    word_or(&columns.propagate, &columns.propagate, &more);
    random_word(random, unit->width, &columns.level);
    random_word(random, unit->width, &columns.in_x);
    columns_to_operands(operation, &columns, a, b);
}

/* Ones below noughts, or the other way round: a chain for inc and dec; among them 0, -1, the greatest
 * and the least signed number, where the operations of one operand do what they seldom do. */
static void two_runs(Random *random, unsigned width, Word *word) {
    const unsigned ends[] = {0, width - 1, width};
    unsigned ones = random_below(random, 2) == 0 ? ends[random_below(random, 3)]
                                                 : random_below(random, width + 1);
    word_zero(word, width);
    for (unsigned i = 0; i < ones; i++)
        word_put(word, i, true);
    if (random_below(random, 2) == 0)
        word_not(word, word);
}

static void try_operands(Random *random, const Unit *unit, int choice, Working *working) {
    Operation operation = unit->choice[choice].operation;
    Word a, b;
    uint32_t kind = random_below(random, 8);
    random_word(random, unit->width, &a);
    random_word(random, unit->width, &b);
    if (kind < 3)
        long_chain(random, unit, operation, &a, &b);
    else if (kind == 3)
        two_runs(random, unit->width, &a);
    working_compute(unit, choice, &a, &b, random_below(random, 2) != 0, working);
}

/* ---- the choice ----------------------------------------------------------------------------- */

static bool is_new(const Working *question, int count) {
    const Working *last = &question[count];
    for (int k = 0; k < count; k++)
        if (question[k].choice == last->choice && word_equal(&question[k].a, &last->a) &&
            word_equal(&question[k].b, &last->b) && question[k].cin == last->cin)
            return false;
    return true;
}

/* The question after `count` others; false where tries find none. */
static bool reach(Random *random, const Unit *unit, int choice, Aim aim, Working *question,
                  int count) {
    for (int tries = 0; tries < TRIES; tries++) {
        try_operands(random, unit, choice, &question[count]);
        if (question_meets(&question[count], aim) && is_new(question, count))
            return true;
    }
    return false;
}

static void choose(Random *random, const Unit *unit, Aim aim, Working *question, int count) {
    /* Each round of the aims begins with another operation. */
    int first = count + count / AIM_COUNT;
    for (int k = 0; k < unit->choice_count; k++)
        if (reach(random, unit, (first + k) % unit->choice_count, aim, question, count))
            return;
    for (int tries = 0; tries < TRIES; tries++) {
        try_operands(random, unit, first % unit->choice_count, &question[count]);
        if (is_new(question, count))
            return;
    }
}

void questions_choose(const Unit *unit, uint64_t seed, int count, Working *question) {
    assert(unit->width <= QUESTIONS_WIDTH_MAX);
    Random random;
    random_seed(&random, seed);
    for (int k = 0; k < count; k++)
        choose(&random, unit, (Aim)(k % AIM_COUNT), question, k);
}
