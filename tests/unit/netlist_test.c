/* Gates as data, in small cases: what a literal says, when no gate is needed, how one is written,
 * what finishing does, and 64 vectors at a time. Boolean algebra is common practice, no source. */
#include "gates/netlist/netlist.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* Two inputs, x and y, and nothing else. */
typedef struct {
    Netlist netlist;
    Literal x, y;
} Pair;

static void open_pair(Pair *pair) {
    netlist_init(&pair->netlist);
    pair->x = netlist_input(&pair->netlist, PIN_A, 0);
    pair->y = netlist_input(&pair->netlist, PIN_B, 0);
}

static void close_pair(Pair *pair) {
    netlist_free(&pair->netlist);
}

static const Node *node_of(const Netlist *netlist, Literal literal) {
    return &netlist->nodes[literal_node(literal)];
}

/* The gate's kind and inputs, and that the literal is its plain output. */
static void assert_gate(const Netlist *netlist, Literal literal, NodeKind kind, Literal x,
                        Literal y) {
    const Node *gate = node_of(netlist, literal);
    assert_false(literal_inverted(literal));
    assert_int_equal(gate->kind, kind);
    assert_int_equal(gate->in[0], x);
    assert_int_equal(gate->in[1], y);
}

/* ---- literals ----------------------------------------------------------------------------- */

static void test_a_literal_is_a_node_and_an_inversion(void **state) {
    (void)state;
    assert_int_equal(literal_node(14), 7);
    assert_int_equal(literal_node(15), 7);
    assert_false(literal_inverted(14));
    assert_true(literal_inverted(15));
    assert_int_equal(literal_not(14), 15);
    assert_int_equal(literal_not(15), 14);
}

static void test_node_0_is_the_constant(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    assert_int_equal(pair.netlist.nodes[0].kind, NODE_CONSTANT);
    assert_int_equal(literal_not(LITERAL_0), LITERAL_1);
    assert_true(literal_is_constant(LITERAL_0));
    assert_true(literal_is_constant(LITERAL_1));
    assert_false(literal_is_constant(pair.x));
    assert_int_equal(pair.x, 2);
    assert_int_equal(pair.y, 4);
    close_pair(&pair);
}

/* ---- no gate where none is needed --------------------------------------------------------- */

typedef Literal Gate(Netlist *netlist, Literal x, Literal y);

typedef struct {
    Literal with_0, with_1, with_itself, with_its_inverse;
} Folded;

/* Four ways to need no gate, the constant on either side. */
static void assert_folds(Gate *gate, Pair *pair, Literal x, Folded expected) {
    Netlist *netlist = &pair->netlist;
    assert_int_equal(gate(netlist, x, LITERAL_0), expected.with_0);
    assert_int_equal(gate(netlist, LITERAL_0, x), expected.with_0);
    assert_int_equal(gate(netlist, x, LITERAL_1), expected.with_1);
    assert_int_equal(gate(netlist, LITERAL_1, x), expected.with_1);
    assert_int_equal(gate(netlist, x, x), expected.with_itself);
    assert_int_equal(gate(netlist, x, literal_not(x)), expected.with_its_inverse);
    assert_int_equal(gate(netlist, literal_not(x), x), expected.with_its_inverse);
    assert_int_equal(netlist->node_count, 3);
}

static void test_constants_and_equal_inputs_need_no_gate(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    for (unsigned inverted = 0; inverted < 2; inverted++) {
        Literal x = pair.x ^ inverted;
        assert_folds(netlist_and, &pair, x, (Folded){LITERAL_0, x, x, LITERAL_0});
        assert_folds(netlist_or, &pair, x, (Folded){x, LITERAL_1, x, LITERAL_1});
        assert_folds(netlist_xor, &pair, x, (Folded){x, literal_not(x), LITERAL_0, LITERAL_1});
    }
    close_pair(&pair);
}

static void test_constants_fold_among_themselves(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    for (Literal p = LITERAL_0; p <= LITERAL_1; p++)
        for (Literal q = LITERAL_0; q <= LITERAL_1; q++) {
            assert_int_equal(netlist_and(&pair.netlist, p, q), p & q);
            assert_int_equal(netlist_or(&pair.netlist, p, q), p | q);
            assert_int_equal(netlist_xor(&pair.netlist, p, q), p ^ q);
        }
    assert_int_equal(pair.netlist.node_count, 3);
    close_pair(&pair);
}

/* ---- one way to write each gate ----------------------------------------------------------- */

static void test_and_keeps_one_inversion_and_turns_two_into_nor(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    Literal x = pair.x, y = pair.y, not_x = literal_not(x), not_y = literal_not(y);
    Netlist *netlist = &pair.netlist;
    assert_gate(netlist, netlist_and(netlist, x, y), NODE_AND, x, y);
    assert_gate(netlist, netlist_and(netlist, not_x, y), NODE_AND, not_x, y);
    assert_gate(netlist, netlist_and(netlist, x, not_y), NODE_AND, x, not_y);
    assert_gate(netlist, netlist_and(netlist, not_x, not_y), NODE_NOR, x, y);
    close_pair(&pair);
}

static void test_or_keeps_one_inversion_and_turns_two_into_nand(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    Literal x = pair.x, y = pair.y, not_x = literal_not(x), not_y = literal_not(y);
    Netlist *netlist = &pair.netlist;
    assert_gate(netlist, netlist_or(netlist, x, y), NODE_OR, x, y);
    assert_gate(netlist, netlist_or(netlist, not_x, y), NODE_OR, not_x, y);
    assert_gate(netlist, netlist_or(netlist, x, not_y), NODE_OR, x, not_y);
    assert_gate(netlist, netlist_or(netlist, not_x, not_y), NODE_NAND, x, y);
    close_pair(&pair);
}

static void test_xor_has_no_inversion(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    Literal x = pair.x, y = pair.y, not_x = literal_not(x), not_y = literal_not(y);
    Netlist *netlist = &pair.netlist;
    assert_gate(netlist, netlist_xor(netlist, x, y), NODE_XOR, x, y);
    assert_gate(netlist, netlist_xor(netlist, not_x, y), NODE_XNOR, x, y);
    assert_gate(netlist, netlist_xor(netlist, x, not_y), NODE_XNOR, x, y);
    assert_gate(netlist, netlist_xor(netlist, not_x, not_y), NODE_XOR, x, y);
    close_pair(&pair);
}

static void test_a_gate_remembers_its_place(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    netlist_enter(&pair.netlist, PART_COLUMNS, 3);
    Literal in_column = netlist_and(&pair.netlist, pair.x, pair.y);
    netlist_enter(&pair.netlist, PART_FLAGS, -1);
    Literal after = netlist_or(&pair.netlist, pair.x, pair.y);
    assert_int_equal(node_of(&pair.netlist, in_column)->part, PART_COLUMNS);
    assert_int_equal(node_of(&pair.netlist, in_column)->column, 3);
    assert_int_equal(node_of(&pair.netlist, after)->part, PART_FLAGS);
    assert_int_equal(node_of(&pair.netlist, after)->column, -1);
    close_pair(&pair);
}

/* ---- roles -------------------------------------------------------------------------------- */

static void test_the_first_role_stays(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    Literal gate = netlist_and(&pair.netlist, pair.x, pair.y);
    assert_int_equal(node_of(&pair.netlist, gate)->role, ROLE_NONE);
    assert_int_equal(netlist_mean(&pair.netlist, gate, ROLE_GENERATED, 5), gate);
    netlist_mean(&pair.netlist, literal_not(gate), ROLE_CARRY, 6);
    assert_int_equal(node_of(&pair.netlist, gate)->role, ROLE_GENERATED);
    assert_int_equal(node_of(&pair.netlist, gate)->index, 5);
    close_pair(&pair);
}

static void test_only_gates_have_roles(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    assert_int_equal(netlist_mean(&pair.netlist, pair.x, ROLE_OPERAND_A, 0), pair.x);
    assert_int_equal(netlist_mean(&pair.netlist, LITERAL_1, ROLE_USE_B, -1), LITERAL_1);
    assert_int_equal(node_of(&pair.netlist, pair.x)->role, ROLE_NONE);
    assert_int_equal(pair.netlist.nodes[0].role, ROLE_NONE);
    close_pair(&pair);
}

/* ---- finishing ---------------------------------------------------------------------------- */

static void test_unread_gates_are_dropped_and_inputs_stay(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    Netlist *netlist = &pair.netlist;
    Literal dead = netlist_or(netlist, pair.x, pair.y);
    netlist_and(netlist, dead, pair.x); /* reads dead, but is read by nobody */
    Literal sum = netlist_xor(netlist, pair.x, pair.y);
    Literal live = netlist_and(netlist, sum, pair.x);
    netlist_output(netlist, PIN_RESULT, 0, live);
    netlist_finish(netlist);
    assert_int_equal(netlist->node_count, 5); /* constant, x, y, sum, live */
    assert_int_equal(netlist->nodes[1].kind, NODE_INPUT);
    assert_int_equal(netlist->nodes[2].kind, NODE_INPUT);
    assert_gate(netlist, 6, NODE_XOR, pair.x, pair.y);
    assert_int_equal(netlist->outputs[0].literal, 8);
    assert_gate(netlist, 8, NODE_AND, 6, pair.x);
    close_pair(&pair);
}

/* The gate that an output reads inverted only, of each kind, gives the opposite gate. */
static void assert_turns_over(Gate *gate, NodeKind from, NodeKind to, unsigned both_inverted) {
    Pair pair;
    open_pair(&pair);
    Literal literal = gate(&pair.netlist, pair.x ^ both_inverted, pair.y ^ both_inverted);
    assert_gate(&pair.netlist, literal, from, pair.x, pair.y);
    netlist_output(&pair.netlist, PIN_RESULT, 0, literal_not(literal));
    netlist_finish(&pair.netlist);
    assert_int_equal(pair.netlist.outputs[0].literal, literal);
    assert_gate(&pair.netlist, literal, to, pair.x, pair.y);
    close_pair(&pair);
}

static void test_a_gate_read_inverted_is_turned_over(void **state) {
    (void)state;
    assert_turns_over(netlist_and, NODE_AND, NODE_NAND, 0);
    assert_turns_over(netlist_or, NODE_OR, NODE_NOR, 0);
    assert_turns_over(netlist_xor, NODE_XOR, NODE_XNOR, 0);
    assert_turns_over(netlist_and, NODE_NOR, NODE_OR, 1);
    assert_turns_over(netlist_or, NODE_NAND, NODE_AND, 1);
}

static void test_turning_over_keeps_an_inner_inversion_tidy(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    Literal gate = netlist_and(&pair.netlist, literal_not(pair.x), pair.y);
    netlist_output(&pair.netlist, PIN_RESULT, 0, literal_not(gate));
    netlist_finish(&pair.netlist);
    /* not (not x and y) = x or not y: one inversion, not NAND with one */
    assert_gate(&pair.netlist, gate, NODE_OR, pair.x, literal_not(pair.y));
    close_pair(&pair);
}

static void test_the_readers_of_a_gate_turned_over_follow(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    Netlist *netlist = &pair.netlist;
    Literal both = netlist_and(netlist, pair.x, pair.y);
    Literal sum = netlist_xor(netlist, both, pair.x);
    Literal masked = netlist_and(netlist, both, pair.x);
    netlist_output(netlist, PIN_RESULT, 0, literal_not(both));
    netlist_output(netlist, PIN_RESULT, 1, sum);
    netlist_output(netlist, PIN_RESULT, 2, masked);
    netlist_finish(netlist);
    assert_gate(netlist, both, NODE_NAND, pair.x, pair.y);
    assert_gate(netlist, sum, NODE_XNOR, both, pair.x);
    assert_gate(netlist, masked, NODE_AND, literal_not(both), pair.x);
    close_pair(&pair);
}

static void test_a_gate_read_both_ways_keeps_an_inverted_output(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    Literal gate = netlist_and(&pair.netlist, pair.x, pair.y);
    netlist_output(&pair.netlist, PIN_RESULT, 0, gate);
    netlist_output(&pair.netlist, PIN_RESULT, 1, literal_not(gate));
    netlist_finish(&pair.netlist);
    assert_gate(&pair.netlist, gate, NODE_AND, pair.x, pair.y);
    assert_int_equal(pair.netlist.outputs[0].literal, gate);
    assert_int_equal(pair.netlist.outputs[1].literal, literal_not(gate));
    close_pair(&pair);
}

static void test_inputs_and_constants_are_not_turned_over(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    netlist_output(&pair.netlist, PIN_RESULT, 0, literal_not(pair.x));
    netlist_output(&pair.netlist, PIN_RESULT, 1, LITERAL_1);
    netlist_finish(&pair.netlist);
    assert_int_equal(pair.netlist.node_count, 3);
    assert_int_equal(pair.netlist.outputs[0].literal, literal_not(pair.x));
    assert_int_equal(pair.netlist.outputs[1].literal, LITERAL_1);
    close_pair(&pair);
}

/* ---- all functions of two inputs ---------------------------------------------------------- */

/* The function whose value where x = p, y = q is bit 2q + p of table, from AND, OR and
 * inversions alone (a sum of products). */
static Literal function_of(Pair *pair, unsigned table) {
    Literal sum = LITERAL_0;
    for (unsigned p = 0; p < 2; p++)
        for (unsigned q = 0; q < 2; q++) {
            Literal product = netlist_and(&pair->netlist, pair->x ^ (p ^ 1), pair->y ^ (q ^ 1));
            if (table >> (2 * q + p) & 1)
                sum = netlist_or(&pair->netlist, sum, product);
        }
    return sum;
}

static void assert_functions(const Netlist *netlist, Literal x, Literal y) {
    /* Vector v has bit 0 of v on x and bit 1 on y, so each truth table comes out 16 times. */
    uint64_t values[256] = {0};
    values[literal_node(x)] = UINT64_C(0xaaaaaaaaaaaaaaaa);
    values[literal_node(y)] = UINT64_C(0xcccccccccccccccc);
    assert_true(netlist->node_count <= 256);
    netlist_evaluate(netlist, values);
    assert_int_equal(netlist->output_count, 16);
    for (unsigned table = 0; table < 16; table++)
        assert_true(netlist_value(values, netlist->outputs[table].literal) ==
                    table * UINT64_C(0x1111111111111111));
}

static void test_all_sixteen_functions_in_one_pass(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    for (unsigned table = 0; table < 16; table++)
        netlist_output(&pair.netlist, PIN_RESULT, table, function_of(&pair, table));
    assert_functions(&pair.netlist, pair.x, pair.y);
    netlist_finish(&pair.netlist);
    assert_functions(&pair.netlist, pair.x, pair.y);
    close_pair(&pair);
}

/* The same from one gate each: every kind, plain and with either input inverted. */
static Literal gate_of(Pair *pair, unsigned table) {
    Netlist *netlist = &pair->netlist;
    Literal x = pair->x, y = pair->y, not_x = literal_not(x), not_y = literal_not(y);
    switch (table) {
    case 1:
        return netlist_and(netlist, not_x, not_y);
    case 2:
        return netlist_and(netlist, x, not_y);
    case 4:
        return netlist_and(netlist, not_x, y);
    case 6:
        return netlist_xor(netlist, x, y);
    case 7:
        return netlist_or(netlist, not_x, not_y);
    case 8:
        return netlist_and(netlist, x, y);
    case 9:
        return netlist_xor(netlist, x, not_y);
    case 11:
        return netlist_or(netlist, x, not_y);
    case 13:
        return netlist_or(netlist, not_x, y);
    case 14:
        return netlist_or(netlist, x, y);
    case 10:
    case 5:
        return x ^ (table == 5);
    case 12:
    case 3:
        return y ^ (table == 3);
    default:
        return table == 15;
    }
}

static void test_one_gate_is_enough_for_each(void **state) {
    (void)state;
    Pair pair;
    open_pair(&pair);
    for (unsigned table = 0; table < 16; table++)
        netlist_output(&pair.netlist, PIN_RESULT, table, gate_of(&pair, table));
    assert_int_equal(pair.netlist.node_count, 3 + 10); /* six of the 16 read one input or none */
    assert_functions(&pair.netlist, pair.x, pair.y);
    netlist_finish(&pair.netlist);
    assert_functions(&pair.netlist, pair.x, pair.y);
    close_pair(&pair);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_literal_is_a_node_and_an_inversion),
        cmocka_unit_test(test_node_0_is_the_constant),
        cmocka_unit_test(test_constants_and_equal_inputs_need_no_gate),
        cmocka_unit_test(test_constants_fold_among_themselves),
        cmocka_unit_test(test_and_keeps_one_inversion_and_turns_two_into_nor),
        cmocka_unit_test(test_or_keeps_one_inversion_and_turns_two_into_nand),
        cmocka_unit_test(test_xor_has_no_inversion),
        cmocka_unit_test(test_a_gate_remembers_its_place),
        cmocka_unit_test(test_the_first_role_stays),
        cmocka_unit_test(test_only_gates_have_roles),
        cmocka_unit_test(test_unread_gates_are_dropped_and_inputs_stay),
        cmocka_unit_test(test_a_gate_read_inverted_is_turned_over),
        cmocka_unit_test(test_turning_over_keeps_an_inner_inversion_tidy),
        cmocka_unit_test(test_the_readers_of_a_gate_turned_over_follow),
        cmocka_unit_test(test_a_gate_read_both_ways_keeps_an_inverted_output),
        cmocka_unit_test(test_inputs_and_constants_are_not_turned_over),
        cmocka_unit_test(test_all_sixteen_functions_in_one_pass),
        cmocka_unit_test(test_one_gate_is_enough_for_each),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
