/* See working.h. */
#include "work/working.h"

#include <assert.h>

Operation working_operation(const Working *working) {
    return working->unit->choice[working->choice].operation;
}

const char *working_operand_remark(const Working *working, int which) {
    if (!addend_is_inverted(working->addend[which]))
        return NULL;
    return addend_is_constant(working->addend[which]) ? "a 1 in every column"
                                                      : "every bit inverted";
}

bool working_inverts(const Working *working) {
    for (int which = 0; which < 2; which++)
        if (addend_is_inverted(working->addend[which]) &&
            !addend_is_constant(working->addend[which]))
            return true;
    return false;
}

bool working_carry_in(const Working *working) {
    return word_bit(&working->carry, working->unit->width - 1);
}

bool working_carry_out(const Working *working) {
    return word_bit(&working->carry, working->unit->width);
}

/* By hand: in each column two bits and a carry, from the lowest column up. */
static void add_columns(Working *working) {
    unsigned width = working->unit->width;
    word_zero(&working->sum, width);
    word_zero(&working->carry, width + 1);
    word_put(&working->carry, 0,
             adder_first_carry(working->unit, working_operation(working), working->cin));
    for (unsigned column = 0; column < width; column++) {
        int ones = word_bit(&working->operand[0], column) + word_bit(&working->operand[1], column) +
                   word_bit(&working->carry, column);
        word_put(&working->sum, column, ones % 2 == 1);
        word_put(&working->carry, column + 1, ones >= 2);
    }
}

void working_compute(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                     Working *working) {
    assert(choice >= 0 && choice < unit->choice_count && a->width == unit->width);
    Operation operation = unit->choice[choice].operation;
    const OperationFacts *facts = operation_facts(operation);
    working->unit = unit;
    working->choice = choice;
    working->a = *a;
    if (facts->reads_b)
        working->b = *b;
    else
        word_zero(&working->b, unit->width);
    working->cin = facts->reads_cin && cin;
    working->cin_inverted = adder_inverts_cin(unit, operation);
    for (int which = 0; which < 2; which++) {
        working->addend[which] = adder_addend(operation, which);
        adder_operand(working->addend[which], &working->a, &working->b, &working->operand[which]);
    }
    add_columns(working);
    model_exact(unit, choice, &working->a, &working->b, working->cin, &working->exact_unsigned,
                &working->exact_signed);
    model_outcome(unit, choice, &working->a, &working->b, working->cin, &working->outcome);
}
