/* The columns worked by hand against the gates' own wires: what the operand row gives the adder,
 * every carry and every sum of a ripple adder, and the outputs. Neither side knows the other. GMP
 * is the third witness, in tests/outside/. */
#include "all_operations.h"
#include "gates/netlist/core.h"
#include "gates/operands.h"
#include "gates/structures/structure.h"
#include "work/working.h"

#include <stdlib.h>
#include <string.h>

enum { LANES = 64 };

/* Sixty-four workings of one unit, and the gates' wires for the same. */
typedef struct {
    Unit unit;
    Netlist netlist;
    Operands operands;
    Adder adder;
    uint64_t *values;
    Working working[LANES];
} Bench;

static void open_bench(Bench *bench, unsigned width, Sense sense) {
    all_operations(&bench->unit, width, sense, OVERFLOW_WRAP);
    netlist_init(&bench->netlist);
    operands_build(&bench->unit, &bench->netlist, &bench->operands);
    bench->adder = (Adder){.width = width,
                           .x = bench->operands.x,
                           .y = bench->operands.y,
                           .first = bench->operands.first,
                           .sum = calloc(width, sizeof(Literal)),
                           .carry = calloc(width + 1, sizeof(Literal))};
    bench->netlist.core = core_new(width);
    structure_build(STRUCTURE_RIPPLE, &bench->netlist, &bench->adder);
    bench->values = calloc(bench->netlist.node_count, sizeof bench->values[0]);
}

static void close_bench(Bench *bench) {
    free(bench->values);
    free(bench->adder.sum);
    free(bench->adder.carry);
    operands_free(&bench->operands);
    netlist_free(&bench->netlist);
}

static bool input_level(const Bench *bench, const Node *node, int lane) {
    const Working *working = &bench->working[lane];
    switch (node->pin) {
    case PIN_A:
        return word_bit(&working->a, node->bit);
    case PIN_B:
        return word_bit(&working->b, node->bit);
    case PIN_CIN:
        return working->cin;
    default:
        assert_int_equal(node->pin, PIN_OP);
        return unit_control_value(&bench->unit, working->choice) >> node->bit & 1;
    }
}

static bool wire(const Bench *bench, Literal literal, int lane) {
    return netlist_value(bench->values, literal) >> lane & 1;
}

static void compare_lane(const Bench *bench, int lane) {
    const Working *working = &bench->working[lane];
    unsigned width = bench->unit.width;
    for (unsigned i = 0; i < width; i++) {
        assert_int_equal(word_bit(&working->operand[0], i), wire(bench, bench->adder.x[i], lane));
        assert_int_equal(word_bit(&working->operand[1], i), wire(bench, bench->adder.y[i], lane));
        assert_int_equal(word_bit(&working->sum, i), wire(bench, bench->adder.sum[i], lane));
    }
    for (unsigned i = 0; i <= width; i++)
        assert_int_equal(word_bit(&working->carry, i), wire(bench, bench->adder.carry[i], lane));
}

static void compare(Bench *bench) {
    for (uint32_t k = 1; k < bench->netlist.node_count; k++) {
        const Node *node = &bench->netlist.nodes[k];
        if (node->kind != NODE_INPUT)
            break;
        for (int lane = 0; lane < LANES; lane++)
            bench->values[k] |= (uint64_t)input_level(bench, node, lane) << lane;
    }
    netlist_evaluate(&bench->netlist, bench->values);
    for (int lane = 0; lane < LANES; lane++)
        compare_lane(bench, lane);
    memset(bench->values, 0, bench->netlist.node_count * sizeof bench->values[0]);
}

/* A sequence of numbers of the test's own (a linear congruence), the same in every run. */
static uint64_t next_random(void) {
    static uint64_t state = 20;
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return state >> 32;
}

static void random_word(Word *word, unsigned width) {
    word_zero(word, width);
    uint64_t style = next_random() % 4;
    for (unsigned i = 0; i < width; i++)
        word_put(word, i, style == 0 ? next_random() & 1 : style == 1 || (style == 2 && i % 7 > 2));
}

static void rounds(unsigned width, int count) {
    static Bench bench;
    for (int sense = 0; sense < SENSE_COUNT; sense++) {
        open_bench(&bench, width, (Sense)sense);
        for (int round = 0; round < count; round++) {
            for (int lane = 0; lane < LANES; lane++) {
                Word a, b;
                random_word(&a, width);
                random_word(&b, width);
                working_compute(&bench.unit, (int)(next_random() % OP_COUNT), &a, &b,
                                next_random() & 1, &bench.working[lane]);
            }
            compare(&bench);
        }
        close_bench(&bench);
    }
}

/* Every operation on every pair of words, each level of cin, both senses. */
static void test_every_input_of_narrow_units(void **state) {
    (void)state;
    static Bench bench;
    for (unsigned width = 1; width <= 4; width++)
        for (int sense = 0; sense < SENSE_COUNT; sense++) {
            open_bench(&bench, width, (Sense)sense);
            int lane = 0;
            uint64_t inputs = (UINT64_C(1) << (2 * width + 1)) * OP_COUNT;
            for (uint64_t input = 0; input < inputs || lane > 0; input++) {
                Word a, b;
                word_set(&a, width, input >> 1);
                word_set(&b, width, input >> (width + 1));
                int choice = (int)(input >> (2 * width + 1)) % OP_COUNT;
                working_compute(&bench.unit, choice, &a, &b, input & 1, &bench.working[lane++]);
                if (lane == LANES) {
                    compare(&bench);
                    lane = 0;
                }
            }
            close_bench(&bench);
        }
}

static void test_wide_units(void **state) {
    (void)state;
    const unsigned widths[] = {8, 12, 16, 31, 32, 33, 63, 64, 65, 129};
    for (size_t k = 0; k < sizeof widths / sizeof widths[0]; k++)
        rounds(widths[k], 10);
    rounds(4096, 1);
}

/* The columns and the model's exact result tell one story: the sum is the result without
 * saturation, the two last carries differ exactly on overflow. */
static void test_columns_agree_with_the_model(void **state) {
    (void)state;
    static Unit unit;
    Working working;
    for (unsigned width = 1; width <= 4; width++) {
        all_operations(&unit, width, SENSE_BORROW, OVERFLOW_WRAP);
        for (uint64_t input = 0; input < UINT64_C(1) << (2 * width + 1); input++)
            for (int choice = 0; choice < OP_COUNT; choice++) {
                Word a, b;
                word_set(&a, width, input >> 1);
                word_set(&b, width, input >> (width + 1));
                working_compute(&unit, choice, &a, &b, input & 1, &working);
                assert_true(word_equal(&working.sum, &working.outcome.result));
                assert_int_equal(working_carry_in(&working) != working_carry_out(&working),
                                 working.outcome.flag[FLAG_OVERFLOW]);
            }
    }
}

/* What an operation does not read changes nothing. */
static void test_operands_that_are_not_read(void **state) {
    (void)state;
    static Unit unit;
    all_operations(&unit, 8, SENSE_NO_BORROW, OVERFLOW_WRAP);
    Word a, b;
    Working working;
    word_set(&a, 8, 5);
    word_set(&b, 8, 77);
    working_compute(&unit, OP_NEG, &a, &b, true, &working);
    assert_true(word_is_zero(&working.b));
    assert_false(working.cin);
    assert_int_equal(working.sum.limb[0], 0xfb);
    assert_string_equal(addend_name(working.addend[0]), "not a");
    assert_string_equal(addend_name(working.addend[1]), "0");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_input_of_narrow_units),
        cmocka_unit_test(test_wide_units),
        cmocka_unit_test(test_columns_agree_with_the_model),
        cmocka_unit_test(test_operands_that_are_not_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
