/* See results.h. */
#include "vectors/results.h"

/* Which of X and Y is to be chosen by the result: one that is an operand as it stands at its pin
 * where there is one; then with 0 for the other one the operand is often the result itself. */
static int chosen_addend(Operation operation) {
    for (int which = 0; which < 2; which++) {
        Addend addend = adder_addend(operation, which);
        if (!addend_is_constant(addend) && !addend_is_inverted(addend))
            return which;
    }
    return addend_is_constant(adder_addend(operation, 0)) ? 1 : 0;
}

bool result_is_taken_from_0(Operation operation) {
    return addend_is_inverted(adder_addend(operation, chosen_addend(operation)));
}

bool result_is_operand(Operation operation) {
    bool other_is_inverted =
        addend_is_inverted(adder_addend(operation, 1 - chosen_addend(operation)));
    return !result_is_taken_from_0(operation) &&
           other_is_inverted == adder_first_at_rest(operation);
}

/* Sends operands that give the result: 0 for the one that is not needed, nothing carried or borrowed
 * in, and of X + Y + first carry the one that is left. */
static void send_result(Generator *generator, VectorReason reason, int choice, const Word *result) {
    Operation operation = generator_operation(generator, choice);
    int chosen = chosen_addend(operation);
    Addend addend = adder_addend(operation, chosen);
    Vector *vector = &generator->vector;
    Word *needed = addend_pin(addend) == PIN_A ? &vector->a : &vector->b, other;
    word_zero(&vector->a, result->width);
    word_zero(&vector->b, result->width);
    adder_operand(adder_addend(operation, 1 - chosen), &vector->a, &vector->b, &other);
    word_subtract(needed, result, &other, adder_first_at_rest(operation));
    if (addend_is_inverted(addend))
        word_not(needed, needed);
    generator_send_choice(generator, reason, choice, adder_first_at_rest(operation));
}

/* A zero flag that overlooks a bit of the result is wrong where that bit is the only one, and
 * nowhere else. */
void result_send_single_one(Generator *generator, VectorReason reason, int choice,
                            unsigned column) {
    Word result;
    word_zero(&result, generator->unit->width);
    word_put(&result, column, true);
    send_result(generator, reason, choice, &result);
}

/* Which of three kinds a bit is, so that in a tree of XORs over neighbours, pairs of neighbours and
 * so on the two inputs of each XOR and its output are of three different kinds. */
static unsigned kind_of(unsigned count, unsigned at) {
    if (count == 1)
        return 0;
    unsigned above = kind_of((count + 1) / 2, at / 2);
    bool alone = count % 2 == 1 && at == count - 1;
    return alone ? above : (above + 1 + at % 2) % 3;
}

void result_send_parities(Generator *generator, VectorReason reason, int choice) {
    for (unsigned kind = 0; kind < 3; kind++) {
        Word result;
        word_zero(&result, generator->unit->width);
        for (unsigned i = 0; i < result.width; i++)
            word_put(&result, i, kind_of(result.width, i) != kind);
        send_result(generator, reason, choice, &result);
    }
}
