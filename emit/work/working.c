/* See working.h. A new operation is a row of the table below. */
#include "work/working.h"

static const AdderView views[OP_COUNT] = {
    [OP_ADD] = {{OPERAND_A, OPERAND_B}, {false, false}, FIRST_ZERO},
    [OP_ADC] = {{OPERAND_A, OPERAND_B}, {false, false}, FIRST_CIN},
    [OP_SUB] = {{OPERAND_A, OPERAND_B}, {false, true}, FIRST_ONE},
    [OP_SBC] = {{OPERAND_A, OPERAND_B}, {false, true}, FIRST_CIN},
    [OP_RSB] = {{OPERAND_A, OPERAND_B}, {true, false}, FIRST_ONE},
    [OP_INC] = {{OPERAND_A, OPERAND_ZERO}, {false, false}, FIRST_ONE},
    [OP_DEC] = {{OPERAND_A, OPERAND_ZERO}, {false, true}, FIRST_ZERO},
    [OP_NEG] = {{OPERAND_A, OPERAND_ZERO}, {true, false}, FIRST_ONE},
    [OP_PASS] = {{OPERAND_A, OPERAND_ZERO}, {false, false}, FIRST_ZERO},
};

Operation working_operation(const Working *working) {
    return working->unit->choice[working->choice].operation;
}

const char *working_operand_name(const Working *working, int which) {
    static const char *const names[][2] = {[OPERAND_ZERO] = {"0", "not 0"},
                                           [OPERAND_A] = {"a", "not a"},
                                           [OPERAND_B] = {"b", "not b"}};
    return names[working->view.source[which]][working->view.inverted[which]];
}

const char *working_operand_remark(const Working *working, int which) {
    if (!working->view.inverted[which])
        return NULL;
    return working->view.source[which] == OPERAND_ZERO ? "a 1 in every column"
                                                       : "every bit inverted";
}

bool working_inverts(const Working *working) {
    const AdderView *view = &working->view;
    return (view->inverted[0] && view->source[0] != OPERAND_ZERO) ||
           (view->inverted[1] && view->source[1] != OPERAND_ZERO);
}

bool working_carry_in(const Working *working) {
    return word_bit(&working->carry, working->unit->width - 1);
}

bool working_carry_out(const Working *working) {
    return word_bit(&working->carry, working->unit->width);
}

/* What the adder is given. */
static void view_operands(Working *working) {
    const AdderView *view = &working->view;
    for (int which = 0; which < 2; which++) {
        Word *operand = &working->operand[which];
        if (view->source[which] == OPERAND_ZERO)
            word_zero(operand, working->unit->width);
        else
            *operand = view->source[which] == OPERAND_A ? working->a : working->b;
        if (view->inverted[which])
            word_not(operand, operand);
    }
}

static bool first_carry(const Working *working) {
    if (working->view.first == FIRST_CIN)
        return working->cin != working->cin_inverted;
    return working->view.first == FIRST_ONE;
}

/* By hand: in each column two bits and a carry, from the lowest column up. */
static void add_columns(Working *working) {
    unsigned width = working->unit->width;
    word_zero(&working->sum, width);
    word_zero(&working->carry, width + 1);
    word_put(&working->carry, 0, first_carry(working));
    for (unsigned column = 0; column < width; column++) {
        int ones = word_bit(&working->operand[0], column) + word_bit(&working->operand[1], column) +
                   word_bit(&working->carry, column);
        word_put(&working->sum, column, ones % 2 == 1);
        word_put(&working->carry, column + 1, ones >= 2);
    }
}

void working_compute(const Unit *unit, int choice, const Word *a, const Word *b, bool cin,
                     Working *working) {
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
    working->view = views[operation];
    working->cin_inverted = facts->subtracts && unit->sense == SENSE_BORROW;
    view_operands(working);
    add_columns(working);
    model_exact(unit, choice, &working->a, &working->b, working->cin, &working->exact_unsigned,
                &working->exact_signed);
    model_outcome(unit, choice, &working->a, &working->b, working->cin, &working->outcome);
}
