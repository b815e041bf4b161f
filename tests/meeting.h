/* Where the two witnesses meet: the reference model, from the definitions, and the netlist, from
 * gates, must say the same at every output pin. For cmocka groups. */
#ifndef SUMWRIGHT_TESTS_MEETING_H
#define SUMWRIGHT_TESTS_MEETING_H

#include "gates/build.h"
#include "model/model.h"
#include "vectors/vectors.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* 64 vectors are gathered, then evaluated at once. */
typedef struct {
    const Unit *unit;
    const Netlist *netlist;
    uint64_t *values;
    Outcome expected[64];
    unsigned held;
    uint64_t compared;
} Meeting;

static inline bool meeting_input(const Unit *unit, const Node *node, const Vector *vector) {
    switch (node->pin) {
    case PIN_A:
        return word_bit(&vector->a, node->bit);
    case PIN_B:
        return word_bit(&vector->b, node->bit);
    case PIN_CIN:
        return vector->cin;
    case PIN_LINE:
        return vector->control & 1;
    case PIN_OP:
        return vector->control >> node->bit & 1;
    default:
        for (int k = 0; k < unit->choice_count; k++)
            if ((int)node->pin == PIN_DO + (int)unit->choice[k].operation)
                return vector->control >> k & 1;
        fail_msg("an input that no vector drives");
        return false;
    }
}

static bool expected_level(const Outcome *outcome, const Output *output) {
    return output->pin == PIN_RESULT ? word_bit(&outcome->result, output->bit)
                                     : outcome->flag[output->pin - PIN_FLAG];
}

static void compare(Meeting *meeting) {
    netlist_evaluate(meeting->netlist, meeting->values);
    for (uint32_t k = 0; k < meeting->netlist->output_count; k++) {
        const Output *output = &meeting->netlist->outputs[k];
        uint64_t got = netlist_value(meeting->values, output->literal);
        for (unsigned v = 0; v < meeting->held; v++)
            if ((got >> v & 1) != expected_level(&meeting->expected[v], output))
                fail_msg("%s, vector %llu: %s[%u] differs", meeting->unit->name,
                         (unsigned long long)(meeting->compared + v),
                         unit_role(meeting->unit, output->pin), output->bit);
    }
    meeting->compared += meeting->held;
    meeting->held = 0;
}

static bool gather(void *context, const Vector *vector) {
    Meeting *meeting = context;
    const Unit *unit = meeting->unit;
    for (uint32_t k = 1; k < meeting->netlist->node_count; k++) {
        const Node *node = &meeting->netlist->nodes[k];
        if (node->kind != NODE_INPUT)
            break;
        uint64_t bit = UINT64_C(1) << meeting->held;
        uint64_t level = meeting_input(unit, node, vector) ? bit : 0;
        meeting->values[k] = (meeting->values[k] & ~bit) | level;
    }
    model_outcome(unit, unit_control_choice(unit, vector->control), &vector->a, &vector->b,
                  vector->cin, &meeting->expected[meeting->held++]);
    if (meeting->held == 64)
        compare(meeting);
    return true;
}

/* Every output of the unit, over its own vectors. */
static uint64_t meet(const Unit *unit, uint64_t random) {
    Netlist netlist;
    build_netlist(unit, &netlist);
    static Meeting meeting;
    meeting = (Meeting){.unit = unit, .netlist = &netlist};
    meeting.values = calloc(netlist.node_count, sizeof meeting.values[0]);
    VectorPlan plan = {.random = random, .seed = 7};
    vectors_each(unit, &plan, gather, &meeting);
    if (meeting.held > 0)
        compare(&meeting);
    free(meeting.values);
    netlist_free(&netlist);
    assert_true(meeting.compared > 0);
    return meeting.compared;
}

#endif
