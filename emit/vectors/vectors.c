/* See vectors.h: the order of the parts, and what is sent where every input is tried. */
#include "vectors/vectors.h"

#include "vectors/parts.h"

#include <string.h>

static unsigned input_bits(const Generator *generator) {
    unsigned operands = generator->has_b ? 2 : 1;
    return unit_control_bits(generator->unit) + (generator->has_cin ? 1 : 0) +
           operands * generator->unit->width;
}

static void generator_init(Generator *generator, const Unit *unit, VectorSink *sink,
                           void *context) {
    generator->unit = unit;
    generator->has_b = unit_has(unit, PIN_B);
    generator->has_cin = unit_has(unit, PIN_CIN);
    generator->sink = sink;
    generator->context = context;
    generator->exhaustive = input_bits(generator) <= VECTORS_EXHAUSTIVE_BITS;
    if (generator->exhaustive)
        memset(generator->sent, 0, sizeof generator->sent);
    generator->idle_cin = false;
    word_zero(&generator->vector.a, unit->width);
    word_zero(&generator->vector.b, unit->width);
}

/* Was this input sent before? If not, it is from now on. */
static bool is_sent(Generator *generator) {
    const Vector *vector = &generator->vector;
    unsigned width = generator->unit->width;
    uint64_t input = vector->control;
    if (generator->has_cin)
        input = input << 1 | vector->cin;
    input = input << width | vector->a.limb[0];
    if (generator->has_b)
        input = input << width | vector->b.limb[0];
    uint64_t *word = &generator->sent[input / 64], bit = UINT64_C(1) << input % 64;
    bool sent = (*word & bit) != 0;
    *word |= bit;
    return sent;
}

bool part_send(Generator *generator, VectorReason reason, uint32_t control, bool cin) {
    Vector *vector = &generator->vector;
    vector->reason = reason;
    vector->control = control;
    vector->cin = cin;
    if (!generator->has_b)
        word_zero(&vector->b, generator->unit->width);
    if (generator->exhaustive && is_sent(generator))
        return true;
    return generator->sink(generator->context, vector);
}

bool part_send_choice(Generator *generator, VectorReason reason, int choice, bool first_carry) {
    const Unit *unit = generator->unit;
    const OperationFacts *facts = operation_facts(unit->choice[choice].operation);
    bool cin = false;
    if (facts->reads_cin) {
        cin = first_carry != (facts->subtracts && unit->sense == SENSE_BORROW);
    } else if (generator->has_cin) {
        cin = generator->idle_cin;
        generator->idle_cin = !generator->idle_cin;
    }
    return part_send(generator, reason, unit_control_value(unit, choice), cin);
}

/* Every a, and for each of them every b. */
static bool every_operand(Generator *generator, VectorReason reason, uint32_t control, bool cin) {
    unsigned width = generator->unit->width;
    uint64_t a_count = UINT64_C(1) << width;
    uint64_t b_count = generator->has_b ? a_count : 1;
    for (uint64_t a = 0; a < a_count; a++)
        for (uint64_t b = 0; b < b_count; b++) {
            word_set(&generator->vector.a, width, a);
            word_set(&generator->vector.b, width, b);
            if (!part_send(generator, reason, control, cin))
                return false;
        }
    return true;
}

static bool every_input(Generator *generator) {
    const Unit *unit = generator->unit;
    for (uint32_t control = 0; control < UINT32_C(1) << unit_control_bits(unit); control++) {
        if (!unit_control_is_contract(unit, control))
            continue;
        bool nothing = unit_control_choice(unit, control) == UNIT_NOTHING;
        for (int cin = 0; cin <= generator->has_cin; cin++)
            if (!every_operand(generator, nothing ? VECTOR_IDLE : VECTOR_EVERY, control, cin == 1))
                return false;
    }
    return true;
}

/* What is there whatever the plan. */
static bool fixed_parts(Generator *generator) {
    if (!part_compact(generator) || !part_idle(generator))
        return false;
    if (generator->exhaustive)
        return every_input(generator);
    return part_corners(generator) && part_walks(generator) && part_chains(generator);
}

bool vectors_each(const Unit *unit, const VectorPlan *plan, VectorSink *sink, void *context) {
    Generator generator;
    generator_init(&generator, unit, sink, context);
    return fixed_parts(&generator) && (generator.exhaustive || part_random(&generator, plan));
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
    generator_init(&generator, unit, count_one, count);
    fixed_parts(&generator);
    count->exhaustive = generator.exhaustive;
    if (!count->exhaustive) {
        count->by_reason[VECTOR_RANDOM] = plan->random;
        count->total += plan->random;
    }
}

const char *vector_reason_name(VectorReason reason) {
    static const char *const names[VECTOR_REASON_COUNT] = {
        [VECTOR_COMPACT] = "compact set",
        [VECTOR_EVERY] = "every other input",
        [VECTOR_IDLE] = "nothing requested",
        [VECTOR_CORNER] = "corner values crossed",
        [VECTOR_WALK] = "walking bits and index patterns",
        [VECTOR_CHAIN] = "carry chains",
        [VECTOR_RANDOM] = "random",
    };
    return names[reason];
}
