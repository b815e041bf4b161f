/* Fault grading against a plain reference: one fault at a time, one vector at a time, the whole
 * circuit evaluated anew. On circuits drawn at random, many of whose faults no input can show, and
 * on units. */
#include "gates/build.h"
#include "gates/faults/faults.h"
#include "vectors/random.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

/* ---- the reference ------------------------------------------------------------------------- */

enum { NODES_MAX = 512, OUTPUTS_MAX = 64 };

static const Fault no_fault = {FAULT_PIN, UINT32_MAX, false};

static bool level_of(const bool *level, Literal literal) {
    return level[literal_node(literal)] != literal_inverted(literal);
}

static bool gate_level(NodeKind kind, bool x, bool y) {
    switch (kind) {
    case NODE_AND:
        return x && y;
    case NODE_OR:
        return x || y;
    case NODE_XOR:
        return x != y;
    case NODE_NAND:
        return !(x && y);
    case NODE_NOR:
        return !(x || y);
    default:
        return x == y;
    }
}

/* input: bit i is the level of input i. The outputs with the fault. */
static void simulate(const Netlist *netlist, Fault fault, uint32_t input, bool *output) {
    bool level[NODES_MAX];
    assert_true(netlist->node_count <= NODES_MAX && netlist->output_count <= OUTPUTS_MAX);
    level[0] = false;
    for (uint32_t k = 1; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (netlist_is_gate(node)) {
            bool x = level_of(level, node->in[0]), y = level_of(level, node->in[1]);
            if (fault.place == FAULT_INPUT_0 && fault.index == k)
                x = fault.level;
            if (fault.place == FAULT_INPUT_1 && fault.index == k)
                y = fault.level;
            level[k] = gate_level(node->kind, x, y);
        } else {
            level[k] = input >> (k - 1) & 1;
        }
        if (fault.place == FAULT_WIRE && fault.index == k)
            level[k] = fault.level;
    }
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        output[k] = level_of(level, netlist->outputs[k].literal);
        if (fault.place == FAULT_PIN && fault.index == k)
            output[k] = fault.level;
    }
}

static bool shows(const Netlist *netlist, Fault fault, uint32_t input) {
    bool right[OUTPUTS_MAX], wrong[OUTPUTS_MAX];
    simulate(netlist, no_fault, input, right);
    simulate(netlist, fault, input, wrong);
    for (uint32_t k = 0; k < netlist->output_count; k++)
        if (right[k] != wrong[k])
            return true;
    return false;
}

static unsigned inputs_of(const Netlist *netlist) {
    unsigned count = 0;
    while (count + 1 < netlist->node_count && netlist->nodes[count + 1].kind == NODE_INPUT)
        count++;
    return count;
}

/* At most one operation is requested. */
static bool is_contract(const Netlist *netlist, uint32_t input) {
    unsigned requests = 0;
    for (uint32_t k = 1; k <= inputs_of(netlist); k++) {
        Pin pin = netlist->nodes[k].pin;
        if (pin >= PIN_DO && pin < PIN_DO + OP_COUNT)
            requests += input >> (k - 1) & 1;
    }
    return requests <= 1;
}

static bool some_input_shows(const Netlist *netlist, Fault fault) {
    for (uint32_t input = 0; input < UINT32_C(1) << inputs_of(netlist); input++)
        if (is_contract(netlist, input) && shows(netlist, fault, input))
            return true;
    return false;
}

/* ---- the comparison ------------------------------------------------------------------------ */

typedef struct {
    unsigned count;
    uint32_t input[1024];
} Inputs;

static void try_all(Faults *faults, const Netlist *netlist, const Inputs *inputs) {
    for (unsigned from = 0; from < inputs->count; from += 64) {
        unsigned count = inputs->count - from < 64 ? inputs->count - from : 64;
        uint64_t *word = faults_inputs(faults);
        for (uint32_t k = 1; k <= inputs_of(netlist); k++) {
            word[k] = 0;
            for (unsigned v = 0; v < count; v++)
                word[k] |= (uint64_t)(inputs->input[from + v] >> (k - 1) & 1) << v;
        }
        faults_try(faults, count);
    }
}

/* What the reference says of a fault, all of it. */
static void check_fault(const Netlist *netlist, const Faults *faults, const Inputs *inputs,
                        Fault fault, FaultCount *expected) {
    FaultState state = faults_state(faults, fault);
    unsigned by = 0;
    while (by < inputs->count && !shows(netlist, fault, inputs->input[by]))
        by++;
    FaultState right = FAULT_CAUGHT;
    if (by == inputs->count)
        right = some_input_shows(netlist, fault) ? FAULT_MISSED : FAULT_HIDDEN;
    assert_int_equal(state, right);
    if (right == FAULT_CAUGHT) {
        assert_int_equal(faults_caught_by(faults, fault), by);
        if (by >= expected->first)
            expected->first = by + 1;
    }
    expected->by_state[right]++;
    expected->total++;
}

static FaultCount check_faults(const Netlist *netlist, const Inputs *inputs, bool every_input) {
    Faults *faults = faults_new(netlist);
    try_all(faults, netlist, inputs);
    faults_settle(faults, every_input);
    FaultCount expected = {0};
    for (uint32_t level = 0; level < 2; level++) {
        for (uint32_t k = 1; k < netlist->node_count; k++)
            for (int place = FAULT_WIRE; place <= FAULT_INPUT_1; place++)
                if (place == FAULT_WIRE || netlist_is_gate(&netlist->nodes[k]))
                    check_fault(netlist, faults, inputs, (Fault){(FaultPlace)place, k, level == 1},
                                &expected);
        for (uint32_t k = 0; k < netlist->output_count; k++)
            check_fault(netlist, faults, inputs, (Fault){FAULT_PIN, k, level == 1}, &expected);
    }
    FaultCount count = faults_count(faults);
    assert_int_equal(count.total, expected.total);
    assert_int_equal(count.first, expected.first);
    for (int state = 0; state < FAULT_STATE_COUNT; state++)
        assert_int_equal(count.by_state[state], expected.by_state[state]);
    faults_free(faults);
    return count;
}

static void every_contract_input(const Netlist *netlist, Inputs *inputs) {
    inputs->count = 0;
    for (uint32_t input = 0; input < UINT32_C(1) << inputs_of(netlist); input++)
        if (is_contract(netlist, input))
            inputs->input[inputs->count++] = input;
}

static void some_inputs(const Netlist *netlist, Inputs *inputs, unsigned count, Random *random) {
    inputs->count = 0;
    while (inputs->count < count) {
        uint32_t input = random_below(random, UINT32_C(1) << inputs_of(netlist));
        if (is_contract(netlist, input))
            inputs->input[inputs->count++] = input;
    }
}

/* ---- circuits drawn at random -------------------------------------------------------------- */

/* The gates' inputs are drawn from everything before, now and then the same wire twice or a
 * constant, by writing to the array: the functions that make gates would see to those. */
static void draw_circuit(Netlist *netlist, unsigned inputs, bool requests, unsigned gates,
                         Random *random) {
    netlist_init(netlist);
    for (unsigned k = 0; k < inputs; k++)
        netlist_input(netlist, requests ? (Pin)(PIN_DO + k) : PIN_A, requests ? 0 : k);
    netlist_input(netlist, PIN_B, 0);
    for (unsigned k = 0; k < gates; k++) {
        uint32_t before = netlist->node_count;
        Literal made = netlist_and(netlist, 2 * (1 + k % inputs), 2 * (inputs + 1));
        Node *gate = &netlist->nodes[literal_node(made)];
        gate->kind = (NodeKind)(NODE_AND + random_below(random, 6));
        gate->in[0] = 2 + random_below(random, 2 * before - 2);
        gate->in[1] = random_below(random, 8) == 0 ? gate->in[0] ^ random_below(random, 2)
                                                   : random_below(random, 2 * before);
    }
    for (unsigned k = 0; k < 4; k++)
        netlist_output(netlist, PIN_RESULT, k,
                       2 * netlist->node_count - 1 - random_below(random, 8));
    netlist_output(netlist, PIN_FLAG, 0, random_below(random, 2 * netlist->node_count));
}

static void check_circuits(unsigned inputs, bool requests, unsigned gates, unsigned circuits) {
    Random random;
    random_seed(&random, gates);
    static Inputs tried;
    uint32_t hidden = 0, missed = 0;
    for (unsigned k = 0; k < circuits; k++) {
        Netlist netlist;
        draw_circuit(&netlist, inputs, requests, gates, &random);
        every_contract_input(&netlist, &tried);
        check_faults(&netlist, &tried, true);
        some_inputs(&netlist, &tried, 1 + random_below(&random, 10), &random);
        FaultCount count = check_faults(&netlist, &tried, false);
        hidden += count.by_state[FAULT_HIDDEN];
        missed += count.by_state[FAULT_MISSED];
        netlist_free(&netlist);
    }
    assert_true(hidden > 0 && missed > 0);
}

static void test_small_circuits(void **state) {
    (void)state;
    check_circuits(4, false, 12, 100);
}

/* Larger than the smallest window of the search. */
static void test_deep_circuits(void **state) {
    (void)state;
    check_circuits(6, false, 120, 4);
}

static void test_requests_are_not_made_together(void **state) {
    (void)state;
    check_circuits(4, true, 10, 100);
}

/* ---- units --------------------------------------------------------------------------------- */

static void build_unit(Netlist *netlist, unsigned width, Control control, int operations,
                       Overflow overflow) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    static const Operation all[] = {OP_SUB, OP_ADC, OP_INC, OP_PASS};
    unit_init(&unit);
    unit.width = width;
    unit.control = control;
    unit.detail = DETAIL_GATES;
    unit.overflow = overflow;
    unit.choice_count = operations;
    for (int k = 0; k < operations; k++)
        unit.choice[k].operation = all[k];
    for (int flag = 0; flag < FLAG_HALF_CARRY; flag++)
        unit.flag[flag] = true;
    assert_true(unit_settle(&unit, &problem));
    build_netlist(&unit, netlist);
}

static void test_units(void **state) {
    (void)state;
    Random random;
    random_seed(&random, 1);
    static Inputs tried;
    for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++)
        for (int operations = 1; operations <= 4; operations++) {
            Control control = operations == 1   ? CONTROL_FIXED
                              : operations == 3 ? CONTROL_ONE_HOT
                                                : CONTROL_CODE;
            Netlist netlist;
            build_unit(&netlist, 2, control, operations, (Overflow)overflow);
            every_contract_input(&netlist, &tried);
            check_faults(&netlist, &tried, true);
            some_inputs(&netlist, &tried, 12, &random);
            check_faults(&netlist, &tried, false);
            netlist_free(&netlist);
        }
}

/* One AND gate: the textbook's table. */
static void test_one_gate(void **state) {
    (void)state;
    Netlist netlist;
    netlist_init(&netlist);
    Literal a = netlist_input(&netlist, PIN_A, 0), b = netlist_input(&netlist, PIN_B, 0);
    netlist_output(&netlist, PIN_RESULT, 0, netlist_and(&netlist, a, b));
    Inputs tried = {.count = 3, .input = {2, 1, 3}}; /* a = 0 b = 1, then 1 0, then 1 1 */
    FaultCount count = check_faults(&netlist, &tried, false);
    assert_int_equal(count.total, 2 * (2 + 3 + 1));
    assert_int_equal(count.by_state[FAULT_CAUGHT], count.total);
    assert_int_equal(count.first, 3);
    netlist_free(&netlist);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_gate),      cmocka_unit_test(test_small_circuits),
        cmocka_unit_test(test_deep_circuits), cmocka_unit_test(test_requests_are_not_made_together),
        cmocka_unit_test(test_units),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
