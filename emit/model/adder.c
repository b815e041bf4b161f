/* See adder.h. */
#include "model/adder.h"

#include <assert.h>

const char *addend_name(Addend addend) {
    static const char *const names[] = {
        [ADDEND_A] = "a",         [ADDEND_NOT_A] = "not a", [ADDEND_B] = "b",
        [ADDEND_NOT_B] = "not b", [ADDEND_ZEROS] = "0",     [ADDEND_ONES] = "not 0"};
    return names[addend];
}

bool addend_is_constant(Addend addend) {
    return addend == ADDEND_ZEROS || addend == ADDEND_ONES;
}

bool addend_is_inverted(Addend addend) {
    return addend == ADDEND_NOT_A || addend == ADDEND_NOT_B || addend == ADDEND_ONES;
}

Pin addend_pin(Addend addend) {
    assert(!addend_is_constant(addend));
    return addend == ADDEND_A || addend == ADDEND_NOT_A ? PIN_A : PIN_B;
}

Addend adder_addend(Operation operation, int which) {
    const OperationFacts *facts = operation_facts(operation);
    return which == 0 ? facts->x : facts->y;
}

bool adder_adds_two(Operation operation) {
    const OperationFacts *facts = operation_facts(operation);
    return !addend_is_constant(facts->x) && !addend_is_constant(facts->y);
}

void adder_operand(Addend addend, const Word *a, const Word *b, Word *to) {
    assert(to != a && to != b && a->width == b->width);
    if (addend_is_constant(addend))
        word_zero(to, a->width);
    else
        word_resize_unsigned(to, addend_pin(addend) == PIN_A ? a : b, a->width);
    if (addend_is_inverted(addend))
        word_not(to, to);
}

bool adder_inverts_cin(const Unit *unit, Operation operation) {
    return operation_facts(operation)->subtracts && unit->sense == SENSE_BORROW;
}

bool adder_first_carry(const Unit *unit, Operation operation, bool cin) {
    Enters first = operation_facts(operation)->first;
    return first == ENTERS_CIN ? cin != adder_inverts_cin(unit, operation) : first == ENTERS_1;
}

bool adder_first_at_rest(Operation operation) {
    const OperationFacts *facts = operation_facts(operation);
    return facts->first == ENTERS_CIN ? facts->subtracts : facts->first == ENTERS_1;
}
