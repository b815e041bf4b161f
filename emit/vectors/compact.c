/* The compact set, first in the file: what is most likely to be wrong in one place shows early.
 *
 * In a ripple of cells eight vectors give every cell each of its eight inputs, whatever the width:
 * a wrong sum shows by itself and a wrong carry in the sum of the next column (W.-T. Cheng, J. H.
 * Patel, "A Minimum Test Set for Multiple Fault Detection in Ripple Carry Adders", IEEE Trans.
 * Computers, 1987). Structures that work on groups of columns get periodic patterns, a constant
 * number for each doubling of the group (B. Becker, "Efficient Testing of Optimal Time Adders",
 * IEEE Trans. Computers, 1988, for test sets that grow with log n). */
#include "vectors/columns.h"
#include "vectors/parts.h"
#include "vectors/patterns.h"
#include "vectors/results.h"

/* Sends columns for an operation with the first carry that is wanted. Where the operation has
 * another, column 0 forces the carry that column 1 is to get. */
static void send_columns(Generator *generator, int choice, Columns *columns, bool first_carry) {
    Operation operation = generator_operation(generator, choice);
    bool fixed = !operation_facts(operation)->reads_cin;
    if (fixed && first_carry != adder_first_at_rest(operation) &&
        word_bit(&columns->propagate, 0)) {
        word_put(&columns->propagate, 0, false);
        word_put(&columns->level, 0, first_carry);
    }
    columns_to_operands(operation, columns, &generator->vector.a, &generator->vector.b);
    generator_send_choice(generator, VECTOR_COMPACT, choice, first_carry);
}

/* ---- every input of every cell ------------------------------------------------------------- */

/* All columns alike, or two by turns: whether they pass the carry on, the level that they force,
 * where the ones of passing columns stand, the first carry. */
static const struct {
    uint64_t propagate, level, in_x;
    bool first_carry;
} cells[] = {
    {0, 0, 0, false},                                    /* 0 + 0 + 0 */
    {UINT64_MAX, 0, UINT64_MAX, false},                  /* 1 + 0 + 0 */
    {UINT64_MAX, 0, 0, false},                           /* 0 + 1 + 0 */
    {UINT64_MAX, 0, UINT64_MAX, true},                   /* 1 + 0 + 1 */
    {UINT64_MAX, 0, 0, true},                            /* 0 + 1 + 1 */
    {0, UINT64_MAX, 0, true},                            /* 1 + 1 + 1 */
    {0, UINT64_C(0x5555555555555555), 0, false},         /* 1 + 1 + 0, 0 + 0 + 1 by turns */
    {0, UINT64_C(0xaaaaaaaaaaaaaaaa), UINT64_MAX, true}, /* 0 + 0 + 1, 1 + 1 + 0 by turns */
};

/* The last column as the pattern has it or, where overflow hides the result, in each of three ways:
 * among them are some without overflow, and those that are just out of range. */
typedef enum { TOP_AS_IS, TOP_PASSES, TOP_FORCES_0, TOP_FORCES_1, TOP_COUNT } Top;

static void put_top(Columns *columns, Top top) {
    unsigned last = columns->propagate.width - 1;
    if (top == TOP_AS_IS)
        return;
    word_put(&columns->propagate, last, top == TOP_PASSES);
    word_put(&columns->level, last, top == TOP_FORCES_1);
}

static void every_cell_input(Generator *generator, int choice, Top top) {
    unsigned width = generator->unit->width;
    for (size_t k = 0; k < sizeof cells / sizeof cells[0]; k++) {
        Columns columns;
        pattern_repeat(&columns.propagate, width, cells[k].propagate);
        pattern_repeat(&columns.level, width, cells[k].level);
        pattern_repeat(&columns.in_x, width, cells[k].in_x);
        put_top(&columns, top);
        send_columns(generator, choice, &columns, cells[k].first_carry);
    }
}

/* ---- one column at a time ------------------------------------------------------------------ */

/* Any operation will do, as all share what looks at the result, but where there is another not one
 * that only takes away from 0, as neg: saturated unsigned, its result is always 0. */
static int choice_for_results(const Generator *generator) {
    bool taken_from_0 = result_is_taken_from_0(generator_operation(generator, 0));
    return generator->unit->choice_count > 1 && taken_from_0 ? 1 : 0;
}

static void results_of_single_ones(Generator *generator, int choice) {
    for (unsigned i = 0; i < generator->unit->width; i++)
        result_send_single_one(generator, VECTOR_COMPACT, choice, i);
}

/* The operations that read a only: the one way to give a column a carry and no one of its own is a
 * carry through all columns before it. The results of inc and neg do that; dec needs the operand.
 */
static void operands_of_single_ones(Generator *generator, int choice) {
    unsigned width = generator->unit->width;
    word_zero(&generator->vector.b, width);
    for (unsigned i = 0; i < width; i++) {
        word_zero(&generator->vector.a, width);
        word_put(&generator->vector.a, i, true);
        generator_send_choice(generator, VECTOR_COMPACT, choice, false);
    }
}

static void every_column(Generator *generator) {
    int any = choice_for_results(generator);
    if (generator->unit->flag[FLAG_PARITY])
        result_send_parities(generator, VECTOR_COMPACT, any);
    if (generator->has_b)
        results_of_single_ones(generator, any);
    for (int k = 0; k < generator->unit->choice_count && !generator->has_b; k++) {
        results_of_single_ones(generator, k);
        operands_of_single_ones(generator, k);
    }
}

/* ---- groups of columns --------------------------------------------------------------------- */

/* A period of columns, from some phase on: one that forces a carry of the level, a run that passes
 * it on, one that forces the opposite, and a run of half as many that pass that on. */
static void send_period(Generator *generator, int choice, unsigned group, unsigned phase,
                        bool level) {
    unsigned width = generator->unit->width, period = 3 * group + 1;
    Columns columns;
    word_ones(&columns.propagate, width);
    word_zero(&columns.level, width);
    pattern_repeat(&columns.in_x, width, (phase / group + level) % 2 == 1 ? UINT64_MAX : 0);
    for (unsigned at = 0; at <= 2 * group; at += 2 * group)
        for (unsigned i = (at + period - phase % period) % period; i < width; i += period) {
            word_put(&columns.propagate, i, false);
            word_put(&columns.level, i, level == (at == 0));
        }
    send_columns(generator, choice, &columns, level);
}

/* Whole groups by turns, from some phase on: all columns of a group generate a carry, kill it or
 * pass it on. */
static void send_turns(Generator *generator, int choice, unsigned group, const char turns[3],
                       unsigned phase) {
    unsigned width = generator->unit->width;
    Columns columns;
    word_zero(&columns.propagate, width);
    word_zero(&columns.level, width);
    pattern_repeat(&columns.in_x, width, phase % 2 == 1 ? UINT64_MAX : 0);
    for (unsigned i = 0; i < width; i += group) {
        char turn = turns[(i / group + phase) % 3];
        unsigned end = width - i < group ? width : i + group;
        if (turn != 'k')
            pattern_ones(turn == 'p' ? &columns.propagate : &columns.level, i, end);
    }
    send_columns(generator, choice, &columns, phase % 2 == 1);
}

/* What joins two groups sees each of them generate, kill and pass on, with a carry and without one
 * arriving below: as far as that can make a difference. */
static void groups_of(Generator *generator, int choice, unsigned group) {
    static const char turns[][4] = {"gpk", "gkp", "gkk", "ggk"};
    for (unsigned phase = 0; phase < 4 * group; phase += group)
        for (int level = 0; level <= 1; level++)
            send_period(generator, choice, group, phase, level == 1);
    for (size_t k = 0; k < sizeof turns / sizeof turns[0]; k++)
        for (unsigned phase = 0; phase < 3; phase++)
            send_turns(generator, choice, group, turns[k], phase);
}

/* ---- all of it ----------------------------------------------------------------------------- */

void part_compact(Generator *generator) {
    const Unit *unit = generator->unit;
    int tops = unit->overflow == OVERFLOW_WRAP ? 1 : TOP_COUNT;
    for (int top = 0; top < tops; top++)
        for (int k = 0; k < unit->choice_count; k++)
            every_cell_input(generator, k, (Top)top);
    every_column(generator);
    for (int k = 0; k < unit->choice_count; k++)
        if (operation_facts(generator_operation(generator, k))->reads_b)
            for (unsigned group = 1; group < unit->width; group *= 2)
                groups_of(generator, k, group);
}
