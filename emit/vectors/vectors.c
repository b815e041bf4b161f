/* See vectors.h: the order of the parts, and what is sent where every input is tried. */
#include "vectors/vectors.h"

#include "vectors/parts.h"

/* Every a, and for each of them every b. */
static void every_operand(Generator *generator, VectorReason reason, uint32_t control, bool cin) {
    unsigned width = generator->unit->width;
    uint64_t a_count = UINT64_C(1) << width;
    uint64_t b_count = generator->has_b ? a_count : 1;
    for (uint64_t a = 0; a < a_count; a++)
        for (uint64_t b = 0; b < b_count; b++) {
            word_set(&generator->vector.a, width, a);
            word_set(&generator->vector.b, width, b);
            generator_send(generator, reason, control, cin);
        }
}

static void every_input(Generator *generator) {
    const Unit *unit = generator->unit;
    for (uint32_t control = 0; control < UINT32_C(1) << unit_control_bits(unit); control++) {
        if (!unit_control_is_contract(unit, control))
            continue;
        bool nothing = unit_control_choice(unit, control) == UNIT_NOTHING;
        for (int cin = 0; cin <= generator->has_cin; cin++)
            every_operand(generator, nothing ? VECTOR_IDLE : VECTOR_EVERY, control, cin == 1);
    }
}

/* What is there whatever the plan. */
static void fixed_parts(Generator *generator) {
    part_compact(generator);
    part_idle(generator);
    if (generator->exhaustive) {
        every_input(generator);
        return;
    }
    part_corners(generator);
    part_walks(generator);
    part_chains(generator);
}

bool vectors_each(const Unit *unit, const VectorPlan *plan, VectorSink *sink, void *context) {
    Generator generator;
    generator_init(&generator, unit, plan, sink, context);
    fixed_parts(&generator);
    if (!generator.exhaustive)
        part_random(&generator, plan);
    return !generator.stopped;
}

static bool count_one(void *context, const Vector *vector) {
    VectorCount *count = context;
    count->by_reason[vector->reason]++;
    count->total++;
    return true;
}

void vectors_count(const Unit *unit, const VectorPlan *plan, VectorCount *count) {
    Generator generator;
    *count = (VectorCount){0};
    generator_init(&generator, unit, plan, count_one, count);
    fixed_parts(&generator);
    count->exhaustive = generator.exhaustive;
    if (!count->exhaustive) {
        count->by_reason[VECTOR_RANDOM] = plan->random;
        count->total += plan->random;
    }
}

const char *vector_reason_name(VectorReason reason) {
#define NAME_ROW(ID, name) [VECTOR_##ID] = name,
    static const char *const names[] = {VECTOR_REASONS(NAME_ROW)};
#undef NAME_ROW
    return names[reason];
}
