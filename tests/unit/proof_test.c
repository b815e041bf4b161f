/* The proof: right circuits are equal to the definition for all inputs, whatever their structure;
 * a circuit with one gate changed is not, and the input that shows it does so on the model, the
 * other witness. Nothing is said to be proved but what is. */
#include "gates/build.h"
#include "model/model.h"
#include "proof/say.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static const Operation every[OP_COUNT] = {OP_ADD, OP_ADC, OP_SUB, OP_SBC, OP_RSB,
                                          OP_INC, OP_DEC, OP_NEG, OP_PASS};
static const Operation add_sub[] = {OP_ADD, OP_SUB}, slice[] = {OP_ADC, OP_SBC},
                       counting[] = {OP_INC, OP_DEC}, sum[] = {OP_ADC}, difference[] = {OP_RSB};

typedef struct {
    const Operation *list;
    int count;
    Control control;
} Set;

static const Set sets[] = {{add_sub, 2, CONTROL_HIGH},        {slice, 2, CONTROL_LOW},
                           {counting, 2, CONTROL_HIGH},       {sum, 1, CONTROL_FIXED},
                           {difference, 1, CONTROL_FIXED},    {every, OP_COUNT, CONTROL_CODE},
                           {every, OP_COUNT, CONTROL_ONE_HOT}};
enum { SETS = sizeof sets / sizeof sets[0] };

/* A unit with all flags, or false where there is none with these properties. */
static bool make(Unit *unit, const Set *set, Structure structure, unsigned width, unsigned way) {
    unit_init(unit);
    unit->width = width;
    unit->control = set->control;
    unit->structure = structure;
    if (structure == STRUCTURE_DEPTH)
        unit->depth = 14;
    unit->detail = DETAIL_GATES;
    unit->sense = (Sense)(way % SENSE_COUNT);
    unit->overflow = (Overflow)(way / SENSE_COUNT % OVERFLOW_COUNT);
    unit->choice_count = set->count;
    for (int k = 0; k < set->count; k++)
        unit->choice[k].operation = set->list[k];
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] = flag != FLAG_HALF_CARRY || width >= 4;
    Problem problem = {STATUS_DONE, ""};
    return unit_settle(unit, &problem);
}

static void expect_equal(const Unit *unit) {
    static Proof proof;
    Netlist netlist;
    build_netlist(unit, &netlist);
    prove(unit, &netlist, prove_limits, &proof);
    if (proof.state != PROOF_EQUAL)
        fail_msg("%s: state %d at output %u, shown by a %llx b %llx control %u", unit->name,
                 proof.state, proof.output, (unsigned long long)proof.example.a[0],
                 (unsigned long long)proof.example.b[0], proof.example.control);
    netlist_free(&netlist);
}

enum { WAYS = SENSE_COUNT * OVERFLOW_COUNT };

static void test_every_structure_at_small_widths(void **state) {
    (void)state;
    static Unit unit;
    unsigned proved = 0;
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (unsigned width = 1; width <= 17; width++)
            for (unsigned set = 0; set < SETS; set++)
                for (unsigned way = 0; way < WAYS; way++)
                    if (make(&unit, &sets[set], (Structure)structure, width, way)) {
                        expect_equal(&unit);
                        proved++;
                    }
    assert_true(proved > 6000);
}

static void test_every_structure_at_larger_widths(void **state) {
    (void)state;
    static const unsigned widths[] = {31, 32, 33, 64};
    static Unit unit;
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (unsigned k = 0; k < 4; k++)
            for (unsigned set = 0; set < SETS; set++)
                if (make(&unit, &sets[set], (Structure)structure, widths[k], k + set))
                    expect_equal(&unit);
}

static void test_each_kind_of_gate(void **state) {
    (void)state;
    static Unit unit;
    for (unsigned set = 0; set < SETS; set++)
        for (unsigned way = 0; way < WAYS; way++) {
            assert_true(make(&unit, &sets[set], STRUCTURE_RIPPLE, 9, way));
            unit.detail = DETAIL_NAND;
            expect_equal(&unit);
            unit.detail = DETAIL_NOR;
            expect_equal(&unit);
        }
}

/* The contract: every structure to 256 bits, ripple and fewest to 4096. */
static void test_the_widths_of_the_contract(void **state) {
    (void)state;
    static Unit unit;
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        if (make(&unit, &sets[0], (Structure)structure, 256, 0))
            expect_equal(&unit);
    assert_true(make(&unit, &sets[0], STRUCTURE_RIPPLE, UNIT_WIDTH_MAX, 0));
    expect_equal(&unit);
    assert_true(make(&unit, &sets[0], STRUCTURE_FEWEST, UNIT_WIDTH_MAX, 0));
    expect_equal(&unit);
}

/* ---- circuits that are wrong ---------------------------------------------------------------- */

static void word_of(Word *word, unsigned width, const uint64_t *limb) {
    word_zero(word, width);
    for (unsigned bit = 0; bit < width; bit++)
        word_put(word, bit, limb[bit / 64] >> bit % 64 & 1);
}

static bool input_level(const Unit *unit, const Node *node, const InputLevels *levels) {
    if (node->pin == PIN_A || node->pin == PIN_B)
        return (node->pin == PIN_A ? levels->a : levels->b)[node->bit / 64] >> node->bit % 64 & 1;
    if (node->pin == PIN_CIN)
        return levels->cin;
    unsigned bit = node->bit;
    for (int k = 0; k < unit->choice_count; k++)
        if ((int)node->pin == PIN_DO + (int)unit->choice[k].operation)
            bit = (unsigned)k;
    return levels->control >> bit & 1;
}

/* Is some output of the netlist not the model's at this input? */
static bool differs(const Unit *unit, const Netlist *netlist, const InputLevels *levels) {
    static Outcome outcome;
    Word a, b;
    word_of(&a, unit->width, levels->a);
    word_of(&b, unit->width, levels->b);
    model_outcome(unit, unit_control_choice(unit, levels->control), &a, &b, levels->cin, &outcome);
    uint64_t values[2000];
    assert_true(netlist->node_count < 2000);
    for (uint32_t k = 1; k < netlist->node_count; k++)
        if (netlist->nodes[k].kind == NODE_INPUT)
            values[k] = input_level(unit, &netlist->nodes[k], levels);
    netlist_evaluate(netlist, values);
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        const Output *output = &netlist->outputs[k];
        bool wanted = output->pin == PIN_RESULT ? word_bit(&outcome.result, output->bit)
                                                : outcome.flag[output->pin - PIN_FLAG];
        if ((netlist_value(values, output->literal) & 1) != wanted)
            return true;
    }
    return false;
}

/* The share as the proof words it, counted by trying all inputs. */
static void count_share(const Unit *unit, const Netlist *netlist, char text[SHARE_BYTES]) {
    static InputLevels levels;
    unsigned count = 0, total = 0;
    for (uint32_t control = 0; control < 1u << unit_control_bits(unit); control++)
        for (unsigned v = 0; v < 1u << (2 * unit->width + 1); v++) {
            levels.control = control;
            levels.cin = v & 1;
            levels.a[0] = v >> 1 & ((1u << unit->width) - 1);
            levels.b[0] = v >> (1 + unit->width);
            if (!unit_control_is_contract(unit, control))
                continue;
            total++;
            count += differs(unit, netlist, &levels);
        }
    unsigned odd = total, power = 0;
    for (; odd % 2 == 0; odd /= 2)
        power++;
    for (; count % 2 == 0 && power > 0; count /= 2)
        power--;
    if (count % odd == 0)
        count /= odd, odd = 1;
    char all[SHARE_BYTES];
    share_total_text(odd, power, all);
    if (count == 1 && odd == 1 && power == 0)
        snprintf(text, SHARE_BYTES, "every input");
    else
        snprintf(text, SHARE_BYTES, "%u of every %.40s inputs", count, all);
}

/* Each gate is made each other kind: the proof finds a difference exactly where there is one. */
static unsigned refute_all(const Unit *unit, bool count) {
    static Proof proof;
    Netlist netlist;
    unsigned refuted = 0;
    build_netlist(unit, &netlist);
    for (uint32_t k = 0; k < netlist.node_count; k++) {
        NodeKind right = netlist.nodes[k].kind;
        for (NodeKind kind = NODE_AND; kind < NODE_KIND_COUNT && right >= NODE_AND; kind++) {
            netlist.nodes[k].kind = kind;
            prove(unit, &netlist, prove_limits, &proof);
            if (kind == right) {
                assert_int_equal(proof.state, PROOF_EQUAL);
                continue;
            }
            if (proof.state == PROOF_DIFFERENT) {
                refuted++;
                assert_true(unit_control_is_contract(unit, proof.example.control));
                assert_true(differs(unit, &netlist, &proof.example));
            }
            if (count) {
                char text[SHARE_BYTES];
                count_share(unit, &netlist, text);
                assert_string_equal(
                    proof.state == PROOF_EQUAL ? "0 of every 1 inputs" : proof.share, text);
            }
        }
        netlist.nodes[k].kind = right;
    }
    netlist_free(&netlist);
    return refuted;
}

static void test_changed_gates_are_refuted(void **state) {
    (void)state;
    static Unit unit;
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (unsigned set = 0; set < SETS; set++)
            if (make(&unit, &sets[set], (Structure)structure, 6, set))
                assert_true(refute_all(&unit, false) > 80);
}

/* At two bits all inputs are tried, so that equal is as sure as different, and the share counted. */
static void test_verdict_and_share_are_those_of_all_inputs(void **state) {
    (void)state;
    static Unit unit;
    static const Operation few[] = {OP_ADC, OP_SUB, OP_NEG, OP_PASS};
    static const Set asked[] = {{slice, 2, CONTROL_HIGH}, {few, 4, CONTROL_ONE_HOT}};
    for (unsigned set = 0; set < 2; set++)
        for (unsigned way = 0; way < WAYS; way += 3) {
            assert_true(make(&unit, &asked[set], STRUCTURE_RIPPLE, 2, way));
            refute_all(&unit, true);
        }
}

static void test_one_wrong_input_of_2_to_64(void **state) {
    (void)state;
    static Unit unit;
    static Proof proof;
    assert_true(make(&unit, &sets[3], STRUCTURE_RIPPLE, 64, 0));
    Netlist netlist;
    build_netlist(&unit, &netlist);
    /* The overflow is turned over where a and b are all ones, and no carry enters. */
    Literal all = LITERAL_1;
    for (uint32_t k = 1; k < netlist.node_count; k++)
        if (netlist.nodes[k].kind == NODE_INPUT) {
            Literal input = 2 * k;
            all = netlist_and(&netlist, all,
                              netlist.nodes[k].pin == PIN_CIN ? literal_not(input) : input);
        }
    for (uint32_t k = 0; k < netlist.output_count; k++)
        if (netlist.outputs[k].pin == (Pin)(PIN_FLAG + FLAG_OVERFLOW))
            netlist.outputs[k].literal = netlist_xor(&netlist, netlist.outputs[k].literal, all);
    prove(&unit, &netlist, prove_limits, &proof);
    assert_int_equal(proof.state, PROOF_DIFFERENT);
    assert_int_equal(proof.example.a[0], UINT64_MAX);
    assert_int_equal(proof.example.b[0], UINT64_MAX);
    assert_false(proof.example.cin);
    assert_string_equal(proof.share, "1 of every 2^129 inputs");
    netlist_free(&netlist);
}

static void test_beyond_the_limit_is_open(void **state) {
    (void)state;
    static Unit unit;
    static Proof proof;
    assert_true(make(&unit, &sets[0], STRUCTURE_KOGGE_STONE, 64, 0));
    Netlist netlist;
    build_netlist(&unit, &netlist);
    for (uint32_t nodes = 2; nodes < 20000; nodes = nodes * 5 / 4 + 1) {
        prove(&unit, &netlist, (DiagramLimits){nodes, UINT64_MAX}, &proof);
        assert_true(proof.state == PROOF_OPEN || (proof.state == PROOF_EQUAL && nodes > 4000));
        assert_true((proof.state == PROOF_OPEN) == (proof.open > 0));
        assert_true(proof.peak <= nodes);
    }
    for (uint64_t steps = 1; steps < 10000; steps *= 2) {
        prove(&unit, &netlist, (DiagramLimits){1u << 20, steps}, &proof);
        assert_int_equal(proof.state, PROOF_OPEN);
    }
    netlist_free(&netlist);
}

static void test_inputs_are_counted(void **state) {
    (void)state;
    static Unit unit;
    char text[SHARE_BYTES];
    assert_true(make(&unit, &sets[0], STRUCTURE_RIPPLE, 8, 0));
    prove_inputs_text(&unit, text);
    assert_string_equal(text, "2^17");
    assert_true(make(&unit, &sets[6], STRUCTURE_RIPPLE, 8, 0));
    prove_inputs_text(&unit, text);
    assert_string_equal(text, "5 x 2^18"); /* ten requests or none, cin, a and b */
}

/* ---- words ---------------------------------------------------------------------------------- */

static void expect_said(const Unit *unit, DiagramLimits limits, const char *text) {
    static Proof proof;
    Netlist netlist;
    build_netlist(unit, &netlist);
    prove(unit, &netlist, limits, &proof);
    char said[400] = "";
    FILE *out = fmemopen(said, sizeof said, "w");
    assert_non_null(out);
    say_proof(unit, &netlist, &proof, out);
    fclose(out);
    assert_string_equal(said, text);
    netlist_free(&netlist);
}

static void test_a_proof_says_what_it_covers(void **state) {
    (void)state;
    static Unit unit;
    assert_true(make(&unit, &sets[0], STRUCTURE_RIPPLE, 8, 0));
    expect_said(&unit, prove_limits, "equal to the definition for all 2^17 inputs");
    expect_said(&unit, (DiagramLimits){18, 1000},
                "open for 16 of 16 outputs, the first result[0]: more than 18 nodes or 1000 steps");
    unit.registers = REGISTERS_BOTH;
    expect_said(&unit, prove_limits,
                "equal to the definition for all 2^17 inputs, between the registers");
    assert_true(make(&unit, &sets[6], STRUCTURE_RIPPLE, 8, 0));
    expect_said(&unit, prove_limits,
                "equal to the definition for all 5 x 2^18 inputs with one request or none");
}

/* Some limit lies between nothing proved and everything. */
static void test_a_part_that_is_proved_is_told(void **state) {
    (void)state;
    static Unit unit;
    static Proof proof;
    Netlist netlist;
    assert_true(make(&unit, &sets[0], STRUCTURE_RIPPLE, 64, 0));
    build_netlist(&unit, &netlist);
    DiagramLimits limits = {1u << 20, 1};
    do {
        limits.steps += 20;
        prove(&unit, &netlist, limits, &proof);
    } while (proof.open == netlist.output_count);
    char text[400];
    snprintf(text, sizeof text,
             "open for %u of 72 outputs, the first result[%u]: more than 1048576 nodes or %llu "
             "steps; the others equal to the definition for all 2^129 inputs",
             proof.open, netlist.outputs[proof.output].bit, (unsigned long long)limits.steps);
    expect_said(&unit, limits, text);
    netlist_free(&netlist);
}

static void test_a_difference_is_told_with_an_input(void **state) {
    (void)state;
    static Unit unit;
    static Proof proof;
    static Problem problem;
    Netlist netlist;
    assert_true(make(&unit, &sets[0], STRUCTURE_RIPPLE, 8, 0));
    build_netlist(&unit, &netlist);
    for (uint32_t k = 0; k < netlist.output_count; k++)
        netlist.outputs[k].literal ^=
            netlist.outputs[k].pin == PIN_RESULT && netlist.outputs[k].bit == 5;
    prove(&unit, &netlist, prove_limits, &proof);
    assert_false(say_difference(&unit, &netlist, &proof, &problem));
    assert_int_equal(problem.status, STATUS_SURROUNDINGS);
    assert_string_equal(
        problem.text,
        "internal fault: bit 5 of the circuit's result is not 0, as the definition says, "
        "for control 0, cin 0, a = 0x0, b = 0x0; nothing is written, please report "
        "the command");
    assert_string_equal(proof.share, "every input");
    netlist_free(&netlist);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_structure_at_small_widths),
        cmocka_unit_test(test_every_structure_at_larger_widths),
        cmocka_unit_test(test_each_kind_of_gate),
        cmocka_unit_test(test_the_widths_of_the_contract),
        cmocka_unit_test(test_changed_gates_are_refuted),
        cmocka_unit_test(test_verdict_and_share_are_those_of_all_inputs),
        cmocka_unit_test(test_one_wrong_input_of_2_to_64),
        cmocka_unit_test(test_beyond_the_limit_is_open),
        cmocka_unit_test(test_inputs_are_counted),
        cmocka_unit_test(test_a_proof_says_what_it_covers),
        cmocka_unit_test(test_a_part_that_is_proved_is_told),
        cmocka_unit_test(test_a_difference_is_told_with_an_input),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
