/* Results of a single one: a zero flag that overlooks a bit of the result is wrong where that bit
 * is the only one, and nowhere else. */
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

bool part_send_single_one(Generator *generator, VectorReason reason, int choice, unsigned column) {
    Operation operation = generator->unit->choice[choice].operation;
    Word result;
    word_zero(&result, generator->unit->width);
    word_put(&result, column, true);
    operands_for_result(operation, &result, &generator->vector);
    return part_send_choice(generator, reason, choice, operation_facts(operation)->subtracts);
}
