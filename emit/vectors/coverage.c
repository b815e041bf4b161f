/* See coverage.h. */
#include "vectors/coverage.h"

#include "base/memory.h"
#include "model/adder.h"

#include <assert.h>

/* ---- one vector ---------------------------------------------------------------------------- */

static void or_into(Word *to, const Word *word) {
    for (unsigned i = 0; 64 * i < word->width; i++)
        to->limb[i] |= word->limb[i];
}

/* The most ones in a row. */
static unsigned longest_run(const Word *word) {
    unsigned longest = 0, run = 0;
    for (unsigned i = 0; 64 * i < word->width; i++) {
        uint64_t limb = word->limb[i];
        for (unsigned bit = 0; bit < 64;) {
            if (limb == 0) {
                run = 0;
                bit = 64;
            } else if (limb == UINT64_MAX) {
                run += 64;
                bit = 64;
            } else {
                run = (limb >> bit & 1) != 0 ? run + 1 : 0;
                bit++;
            }
            longest = run > longest ? run : longest;
        }
    }
    return longest;
}

static void note_columns(const Unit *unit, CoverageEvents *events, const Vector *vector,
                         Operation operation) {
    Word x, y, carries, passes, event;
    adder_operand(adder_addend(operation, 0), &vector->a, &vector->b, &x);
    adder_operand(adder_addend(operation, 1), &vector->a, &vector->b, &y);
    bool first = adder_first_carry(unit, operation, vector->cin);
    word_add(&carries, &x, &y, first); /* the sum, x xor y xor the carries */
    word_xor(&passes, &x, &y);
    word_xor(&carries, &carries, &passes);
    word_and(&event, &x, &y);
    or_into(&events->column[COLUMN_GENERATES], &event);
    word_and(&event, &passes, &carries);
    or_into(&events->column[COLUMN_PASSES_1], &event);
    word_xor(&event, &event, &passes);
    or_into(&events->column[COLUMN_PASSES_0], &event);
    word_not(&x, &x);
    word_not(&y, &y);
    word_and(&event, &x, &y);
    or_into(&events->column[COLUMN_KILLS], &event);
    if (events->longest < vector->a.width) {
        unsigned longest = longest_run(&passes);
        events->longest = longest > events->longest ? longest : events->longest;
    }
}

static void note(const Unit *unit, CoverageEvents *events, int choice, const Vector *vector) {
    Outcome outcome;
    model_outcome(unit, choice, &vector->a, &vector->b, vector->cin, &outcome);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        events->flag[flag][outcome.flag[flag] ? 1 : 0] = true;
    note_columns(unit, events, vector, unit->choice[choice].operation);
    events->vectors++;
}

static void clear(CoverageEvents *events, unsigned width) {
    *events = (CoverageEvents){0};
    for (int event = 0; event < COLUMN_EVENT_COUNT; event++)
        word_zero(&events->column[event], width);
}

void coverage_add(Coverage *coverage, const Vector *vector) {
    assert(vector->a.width == coverage->unit->width);
    int choice = unit_control_choice(coverage->unit, vector->control);
    if (choice == UNIT_NOTHING)
        coverage->nothing++;
    else
        note(coverage->unit, &coverage->seen[choice], choice, vector);
}

/* ---- what can occur ------------------------------------------------------------------------ */

/* The widest unit whose every input is tried: the first width with a half carry, and wide enough
 * for a column that is neither the first nor the last. */
enum { NARROW = 4 };

static void note_every_input(const Unit *narrow, CoverageEvents *events, int choice) {
    Vector vector = {.cin = false};
    unsigned values = 1U << narrow->width;
    clear(events, narrow->width);
    for (unsigned input = 0; input < 2 * values * values; input++) {
        vector.cin = input % 2 == 1;
        word_set(&vector.a, narrow->width, input / 2);
        word_set(&vector.b, narrow->width, input / 2 / values);
        note(narrow, events, choice, &vector);
    }
}

/* From the narrow unit's column 0, and its column 1 for all others. */
static void widen(CoverageEvents *events, unsigned narrow, unsigned width) {
    events->longest += width - narrow;
    for (int event = 0; event < COLUMN_EVENT_COUNT; event++) {
        Word *column = &events->column[event];
        bool first = word_bit(column, 0);
        if (narrow > 1 && word_bit(column, 1))
            word_ones(column, width);
        else
            word_zero(column, width);
        word_put(column, 0, first);
    }
}

Coverage *coverage_new(const Unit *unit) {
    Coverage *coverage = memory_zeroed(1, sizeof *coverage);
    Unit *narrow = memory_zeroed(1, sizeof *narrow);
    *narrow = *unit;
    narrow->width = unit->width < NARROW ? unit->width : NARROW;
    coverage->unit = unit;
    for (int k = 0; k < unit->choice_count; k++) {
        clear(&coverage->seen[k], unit->width);
        note_every_input(narrow, &coverage->possible[k], k);
        widen(&coverage->possible[k], narrow->width, unit->width);
    }
    memory_free(narrow);
    return coverage;
}

/* ---- how much ------------------------------------------------------------------------------ */

static uint64_t ones(const Word *word) {
    uint64_t count = 0;
    for (unsigned i = 0; 64 * i < word->width; i++)
        for (uint64_t limb = word->limb[i]; limb != 0; limb &= limb - 1)
            count++;
    return count;
}

static CoverageSum sum_of(const Unit *unit, const CoverageEvents *events) {
    CoverageSum sum = {.operations = events->vectors > 0 ? 1 : 0, .longest = events->longest};
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (unit->flag[flag])
            sum.flags += (uint64_t)events->flag[flag][0] + events->flag[flag][1];
    for (int event = 0; event < COLUMN_EVENT_COUNT; event++)
        sum.columns += ones(&events->column[event]);
    return sum;
}

CoverageCount coverage_count_choice(const Coverage *coverage, int choice) {
    return (CoverageCount){sum_of(coverage->unit, &coverage->seen[choice]),
                           sum_of(coverage->unit, &coverage->possible[choice])};
}

static void add_sum(CoverageSum *all, CoverageSum one) {
    all->operations += one.operations;
    all->flags += one.flags;
    all->columns += one.columns;
    all->longest = one.longest > all->longest ? one.longest : all->longest;
}

CoverageCount coverage_count(const Coverage *coverage) {
    CoverageCount all = {{0}, {0}};
    for (int k = 0; k < coverage->unit->choice_count; k++) {
        CoverageCount one = coverage_count_choice(coverage, k);
        add_sum(&all.seen, one.seen);
        add_sum(&all.possible, one.possible);
    }
    if (unit_can_idle(coverage->unit)) {
        all.seen.operations += coverage->nothing > 0 ? 1 : 0;
        all.possible.operations++;
    }
    return all;
}

const char *column_event_name(ColumnEvent event) {
#define NAME_ROW(ID, name) [COLUMN_##ID] = name,
    static const char *const names[] = {COLUMN_EVENTS(NAME_ROW)};
#undef NAME_ROW
    return names[event];
}
