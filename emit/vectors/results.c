/* Operands by the result that they give, for what looks at the result as a whole: its flags. */
#include "vectors/parts.h"

/* Operands that give a result, from the operation's formula: the operand that is not needed is 0,
 * and nothing is carried or borrowed in. */
static void operands_for_result(Operation operation, const Word *result, Vector *vector) {
    Word *needed = operation == OP_RSB ? &vector->b : &vector->a;
    Word zero;
    word_zero(&zero, result->width);
    word_zero(&vector->a, result->width);
    word_zero(&vector->b, result->width);
    switch (operation) {
    case OP_INC:
        word_subtract(needed, result, &zero, true);
        break;
    case OP_DEC:
        word_add(needed, result, &zero, true);
        break;
    case OP_NEG:
        word_subtract(needed, &zero, result, false);
        break;
    default:
        word_resize_unsigned(needed, result, result->width);
    }
}

/* Sends operands that give the result. */
static bool send_result(Generator *generator, VectorReason reason, int choice, const Word *result) {
    Operation operation = generator->unit->choice[choice].operation;
    operands_for_result(operation, result, &generator->vector);
    return part_send_choice(generator, reason, choice, operation_facts(operation)->subtracts);
}

/* A zero flag that overlooks a bit of the result is wrong where that bit is the only one, and
 * nowhere else. */
bool part_send_single_one(Generator *generator, VectorReason reason, int choice, unsigned column) {
    Word result;
    word_zero(&result, generator->unit->width);
    word_put(&result, column, true);
    return send_result(generator, reason, choice, &result);
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

bool part_send_parities(Generator *generator, VectorReason reason, int choice) {
    for (unsigned kind = 0; kind < 3; kind++) {
        Word result;
        word_zero(&result, generator->unit->width);
        for (unsigned i = 0; i < result.width; i++)
            word_put(&result, i, kind_of(result.width, i) != kind);
        if (!send_result(generator, reason, choice, &result))
            return false;
    }
    return true;
}
