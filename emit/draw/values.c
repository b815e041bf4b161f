/* See values.h. */
#include "draw/values.h"

#include "base/memory.h"

static bool level_of_pin(const Working *example, const Node *input) {
    const Unit *unit = example->unit;
    uint32_t control = unit_control_value(unit, example->choice);
    switch (input->pin) {
    case PIN_A:
        return word_bit(&example->a, input->bit);
    case PIN_B:
        return word_bit(&example->b, input->bit);
    case PIN_CIN:
        return example->cin;
    case PIN_LINE:
        return (control & 1) != 0;
    case PIN_OP:
        return (control >> input->bit & 1) != 0;
    default: /* a request */
        return (int)input->pin == PIN_DO + (int)working_operation(example);
    }
}

uint64_t *values_of(const Netlist *netlist, const Working *example) {
    if (example == NULL)
        return NULL;
    uint64_t *values = memory_zeroed(netlist->node_count, sizeof values[0]);
    for (uint32_t k = 1; k < netlist->node_count; k++)
        if (netlist->nodes[k].kind == NODE_INPUT)
            values[k] = level_of_pin(example, &netlist->nodes[k]);
    netlist_evaluate(netlist, values);
    return values;
}

bool values_is_carry(const Node *node) {
    return netlist_is_gate(node) && node->index >= 0 &&
           (node->role == ROLE_CARRY || node->role == ROLE_CHAIN || node->role == ROLE_BORROW ||
            node->role == ROLE_CARRY_OR_BORROW);
}

char values_carry_letter(const Node *node) {
    return node->role == ROLE_CHAIN ? 'k' : 'c';
}
