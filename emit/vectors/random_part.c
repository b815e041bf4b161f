/* The random part. Vectors are drawn one after another from one stream of numbers, so that asking
 * for more of them leaves the first ones as they were. */
#include "vectors/columns.h"
#include "vectors/parts.h"
#include "vectors/patterns.h"
#include "vectors/random.h"

/* Of 16 vectors, on average: uniform words, runs; the rest have long carries. */
enum { UNIFORM_OF_16 = 4, RUNS_OF_16 = 2 };

/* Long carries are interrupted by fewer columns than this. */
enum { BREAKS = 8 };

/* An operation of the unit, or as one more possibility, where there is one, none. */
static int draw_choice(const Unit *unit, Random *random) {
    int places = unit->choice_count + (unit_can_idle(unit) ? 1 : 0);
    int drawn = (int)random_below(random, (uint32_t)places);
    return drawn < unit->choice_count ? drawn : UNIT_NOTHING;
}

/* A control value that selects nothing: no request, or any unused code. At least one code in eight
 * is unused where any is, as there are 9 operations at most. */
static uint32_t draw_idle_control(const Unit *unit, Random *random) {
    uint32_t value = 0;
    if (unit->control == CONTROL_CODE)
        do
            value = random_below(random, UINT32_C(1) << unit->code_bits);
        while (unit_control_choice(unit, value) != UNIT_NOTHING);
    return value;
}

static void draw_uniform(Vector *vector, unsigned width, Random *random) {
    pattern_uniform(&vector->a, width, random);
    pattern_uniform(&vector->b, width, random);
}

/* Columns that pass carries on, but for a few. */
static void draw_long_carries(Operation operation, Vector *vector, unsigned width, Random *random) {
    Columns columns;
    pattern_uniform(&columns.in_x, width, random);
    pattern_uniform(&columns.level, width, random);
    word_ones(&columns.propagate, width);
    for (uint32_t breaks = random_below(random, BREAKS); breaks > 0; breaks--)
        word_put(&columns.propagate, random_below(random, width), false);
    columns_to_operands(operation, &columns, &vector->a, &vector->b);
}

static void draw_operands(Operation operation, Vector *vector, unsigned width, Random *random) {
    uint32_t kind = random_below(random, 16);
    if (kind < UNIFORM_OF_16) {
        draw_uniform(vector, width, random);
    } else if (kind < UNIFORM_OF_16 + RUNS_OF_16) {
        pattern_runs(&vector->a, width, random);
        pattern_runs(&vector->b, width, random);
    } else {
        draw_long_carries(operation, vector, width, random);
    }
}

static void send_drawn(Generator *generator, Random *random) {
    const Unit *unit = generator->unit;
    Vector *vector = &generator->vector;
    int choice = draw_choice(unit, random);
    bool cin = random_below(random, 2) == 1 && generator->has_cin;
    if (choice == UNIT_NOTHING) {
        uint32_t control = draw_idle_control(unit, random);
        draw_uniform(vector, unit->width, random);
        generator_send(generator, VECTOR_RANDOM, control, cin);
        return;
    }
    draw_operands(generator_operation(generator, choice), vector, unit->width, random);
    generator_send(generator, VECTOR_RANDOM, unit_control_value(unit, choice), cin);
}

void part_random(Generator *generator, const VectorPlan *plan) {
    Random random;
    random_seed(&random, plan->seed);
    for (uint64_t k = 0; k < plan->random && !generator->stopped; k++)
        send_drawn(generator, &random);
}
