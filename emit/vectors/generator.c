/* See generator.h. */
#include "vectors/generator.h"

#include "model/adder.h"

#include <assert.h>
#include <string.h>

static unsigned input_bits(const Generator *generator) {
    unsigned operands = generator->has_b ? 2 : 1;
    return unit_control_bits(generator->unit) + (generator->has_cin ? 1 : 0) +
           operands * generator->unit->width;
}

void generator_init(Generator *generator, const Unit *unit, const VectorPlan *plan,
                    VectorSink *sink, void *context) {
    generator->unit = unit;
    generator->has_b = unit_has(unit, PIN_B);
    generator->has_cin = unit_has(unit, PIN_CIN);
    generator->sink = sink;
    generator->context = context;
    generator->stopped = false;
    unsigned most = plan->exhaustive_bits > 0 ? plan->exhaustive_bits : VECTORS_EXHAUSTIVE_BITS;
    assert(most <= VECTORS_EXHAUSTIVE_BITS_MAX);
    generator->exhaustive = input_bits(generator) <= most;
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
    assert(input >> VECTORS_EXHAUSTIVE_BITS_MAX == 0);
    uint64_t *word = &generator->sent[input / 64], bit = UINT64_C(1) << input % 64;
    bool sent = (*word & bit) != 0;
    *word |= bit;
    return sent;
}

void generator_send(Generator *generator, VectorReason reason, uint32_t control, bool cin) {
    Vector *vector = &generator->vector;
    if (generator->stopped)
        return;
    vector->reason = reason;
    vector->control = control;
    vector->cin = cin;
    if (!generator->has_b)
        word_zero(&vector->b, generator->unit->width);
    assert(vector->a.width == generator->unit->width && vector->b.width == vector->a.width);
    if (!generator->exhaustive || !is_sent(generator))
        generator->stopped = !generator->sink(generator->context, vector);
}

void generator_send_choice(Generator *generator, VectorReason reason, int choice,
                           bool first_carry) {
    const Unit *unit = generator->unit;
    Operation operation = generator_operation(generator, choice);
    bool cin = false;
    if (operation_facts(operation)->reads_cin) {
        cin = first_carry != adder_inverts_cin(unit, operation);
    } else if (generator->has_cin) {
        cin = generator->idle_cin;
        generator->idle_cin = !generator->idle_cin;
    }
    generator_send(generator, reason, unit_control_value(unit, choice), cin);
}

Operation generator_operation(const Generator *generator, int choice) {
    assert(choice >= 0 && choice < generator->unit->choice_count);
    return generator->unit->choice[choice].operation;
}
