/* Circuits of NANDs or NORs alone: that they are of nothing else, compute what the circuit they
 * were made from computes and what the model says, and how many gates they take, against published
 * and counted figures. */
#include "meeting.h"

#include "gates/mapping/map.h"
#include "gates/netlist/cost.h"

static const NodeKind both_kinds[] = {NODE_NAND, NODE_NOR};

/* ---- of one kind, and equal ---------------------------------------------------------------- */

static void assert_of_kind(const Netlist *netlist, NodeKind kind) {
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (!netlist_is_gate(node))
            continue;
        assert_int_equal(node->kind, kind);
        for (int side = 0; side < 2; side++) {
            assert_false(literal_inverted(node->in[side]));
            assert_false(literal_is_constant(node->in[side]));
            assert_in_range(literal_node(node->in[side]), 1, k - 1);
        }
    }
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        Literal literal = netlist->outputs[k].literal;
        assert_true(literal_is_constant(literal) || !literal_inverted(literal));
    }
}

/* Every gate is read, by a gate after it or an output. */
static void assert_all_read(const Netlist *netlist) {
    bool *read = calloc(netlist->node_count, sizeof read[0]);
    for (uint32_t k = 0; k < netlist->output_count; k++)
        read[literal_node(netlist->outputs[k].literal)] = true;
    for (uint32_t k = netlist->node_count; k-- > 0;) {
        const Node *node = &netlist->nodes[k];
        if (!netlist_is_gate(node))
            continue;
        assert_true(read[k]);
        for (int side = 0; side < 2; side++)
            read[literal_node(node->in[side])] = true;
    }
    free(read);
}

/* The inputs' words: all combinations of six inputs, and words at random for any more. */
static uint64_t input_word(uint32_t input) {
    static const uint64_t six[] = {0xaaaaaaaaaaaaaaaa, 0xcccccccccccccccc, 0xf0f0f0f0f0f0f0f0,
                                   0xff00ff00ff00ff00, 0xffff0000ffff0000, 0xffffffff00000000};
    uint64_t word = (input + 1) * UINT64_C(0x9e3779b97f4a7c15);
    return input < 6 ? six[input] : (word ^ word >> 29) * UINT64_C(0xbf58476d1ce4e5b9);
}

static void assert_equal(const Netlist *netlist, const Netlist *mapped) {
    uint64_t *values = calloc(netlist->node_count, sizeof values[0]);
    uint64_t *others = calloc(mapped->node_count, sizeof others[0]);
    for (uint32_t k = 1; k < netlist->node_count && netlist->nodes[k].kind == NODE_INPUT; k++) {
        assert_int_equal(mapped->nodes[k].pin, netlist->nodes[k].pin);
        assert_int_equal(mapped->nodes[k].bit, netlist->nodes[k].bit);
        values[k] = others[k] = input_word(k - 1);
    }
    netlist_evaluate(netlist, values);
    netlist_evaluate(mapped, others);
    assert_int_equal(mapped->output_count, netlist->output_count);
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        assert_int_equal(mapped->outputs[k].pin, netlist->outputs[k].pin);
        assert_int_equal(mapped->outputs[k].bit, netlist->outputs[k].bit);
        assert_true(netlist_value(values, netlist->outputs[k].literal) ==
                    netlist_value(others, mapped->outputs[k].literal));
    }
    free(values);
    free(others);
}

static uint32_t mapped_gates(const Netlist *netlist, NodeKind kind) {
    Netlist mapped;
    map_netlist(netlist, kind, &mapped);
    assert_of_kind(&mapped, kind);
    assert_all_read(&mapped);
    assert_equal(netlist, &mapped);
    uint32_t gates = cost_count(&mapped).gates;
    netlist_free(&mapped);
    return gates;
}

static uint32_t random_number(uint32_t *seed, uint32_t below) {
    *seed = *seed * 1664525u + 1013904223u;
    return (*seed >> 8) % below;
}

/* Gates at random on six inputs, constants, inputs and inverses among the outputs: what no adder
 * has. A gate of the source takes five at most, an XNOR of NANDs, and an inverter for each input
 * and product. */
static void test_any_netlist(void **state) {
    (void)state;
    typedef Literal Gate(Netlist * netlist, Literal x, Literal y);
    static Gate *const gates[] = {netlist_and, netlist_or, netlist_xor};
    uint32_t seed = 1;
    for (int round = 0; round < 3000; round++) {
        Netlist netlist;
        netlist_init(&netlist);
        for (unsigned k = 0; k < 6; k++)
            netlist_input(&netlist, PIN_A, k);
        uint32_t count = 1 + random_number(&seed, 30);
        for (uint32_t k = 0; k < count; k++) {
            uint32_t reach = 2 * netlist.node_count;
            Literal x = random_number(&seed, reach), y = random_number(&seed, reach);
            gates[random_number(&seed, 3)](&netlist, x, y);
        }
        for (unsigned k = 0; k < 4; k++)
            netlist_output(&netlist, PIN_RESULT, k, random_number(&seed, 2 * netlist.node_count));
        netlist_finish(&netlist);
        Cost cost = cost_count(&netlist);
        for (int k = 0; k < 2; k++)
            assert_in_range(mapped_gates(&netlist, both_kinds[k]), 0, 6 * cost.gates + 6);
        netlist_free(&netlist);
    }
}

/* ---- small circuits ------------------------------------------------------------------------ */

typedef struct {
    Netlist netlist;
    Literal a, b, c, m;
} Small;

static void open_small(Small *small) {
    netlist_init(&small->netlist);
    small->a = netlist_input(&small->netlist, PIN_A, 0);
    small->b = netlist_input(&small->netlist, PIN_B, 0);
    small->c = netlist_input(&small->netlist, PIN_CIN, 0);
    small->m = netlist_input(&small->netlist, PIN_LINE, 0);
}

/* The gates that it takes with these outputs; LITERAL_NONE for no second one. */
static void assert_takes(Small *small, Literal first, Literal second, uint32_t nands,
                         uint32_t nors) {
    netlist_output(&small->netlist, PIN_RESULT, 0, first);
    if (second != LITERAL_NONE)
        netlist_output(&small->netlist, PIN_RESULT, 1, second);
    netlist_finish(&small->netlist);
    assert_int_equal(mapped_gates(&small->netlist, NODE_NAND), nands);
    assert_int_equal(mapped_gates(&small->netlist, NODE_NOR), nors);
    netlist_free(&small->netlist);
}

/* Common practice, no source. */
static void test_single_gates(void **state) {
    (void)state;
    Small s;
    Netlist *n = &s.netlist;
    open_small(&s);
    assert_takes(&s, s.a, LITERAL_1, 0, 0);
    open_small(&s);
    assert_takes(&s, literal_not(s.a), literal_not(s.a), 1, 1);
    open_small(&s);
    assert_takes(&s, literal_not(netlist_and(n, s.a, s.b)), LITERAL_NONE, 1, 4);
    open_small(&s);
    assert_takes(&s, netlist_and(n, s.a, s.b), LITERAL_NONE, 2, 3);
    open_small(&s);
    assert_takes(&s, netlist_or(n, s.a, s.b), LITERAL_NONE, 3, 2);
    open_small(&s);
    assert_takes(&s, netlist_and(n, s.a, literal_not(s.b)), LITERAL_NONE, 3, 2);
    open_small(&s);
    assert_takes(&s, netlist_xor(n, s.a, s.b), LITERAL_NONE, 4, 5);
    open_small(&s);
    assert_takes(&s, literal_not(netlist_xor(n, s.a, s.b)), LITERAL_NONE, 5, 4);
    open_small(&s);
    assert_takes(&s, netlist_xor(n, s.a, s.b), netlist_and(n, s.a, s.b), 5, 5);
}

static Literal selected(Netlist *n, Literal m, Literal at_1, Literal at_0) {
    return netlist_or(n, netlist_and(n, at_1, m), netlist_and(n, at_0, literal_not(m)));
}

static void test_a_selection_takes_four(void **state) {
    (void)state;
    Small s;
    open_small(&s);
    assert_takes(&s, selected(&s.netlist, s.m, s.a, s.b), LITERAL_NONE, 4, 4);
}

/* S. Muroga and others, "Optimal One-Bit Full Adders With Different Types of Gates", IEEE
 * Transactions on Computers, 1974: nine NANDs, and for duality nine NORs; eight are impossible. The
 * source has five gates, with the carry's last ones either way round. */
static void test_a_full_adder_takes_nine(void **state) {
    (void)state;
    for (int product_of_sums = 0; product_of_sums < 2; product_of_sums++) {
        Small s;
        Netlist *n = &s.netlist;
        open_small(&s);
        Literal differ = netlist_xor(n, s.a, s.b);
        Literal sum = netlist_xor(n, differ, s.c);
        Literal carry =
            product_of_sums
                ? netlist_and(n, netlist_or(n, s.a, s.b), netlist_or(n, literal_not(differ), s.c))
                : netlist_or(n, netlist_and(n, s.a, s.b), netlist_and(n, differ, s.c));
        assert_takes(&s, sum, carry, 9, 9);
    }
}

/* The same for a full subtractor. Common practice, no source. */
static void test_a_full_subtractor_takes_nine(void **state) {
    (void)state;
    Small s;
    Netlist *n = &s.netlist;
    open_small(&s);
    Literal differ = netlist_xor(n, s.a, s.b);
    Literal borrow = netlist_or(n, netlist_and(n, literal_not(s.a), s.b),
                                netlist_and(n, literal_not(differ), s.c));
    assert_takes(&s, netlist_xor(n, differ, s.c), borrow, 9, 9);
}

/* ---- units --------------------------------------------------------------------------------- */

static const char letters[] = "aAsSridnp"; /* in the order of Operation */

static bool settle(Unit *unit, Structure structure, unsigned width, const char *operations,
                   Detail detail) {
    Problem problem = {STATUS_DONE, ""};
    unit->width = width;
    unit->structure = structure;
    unit->depth = structure == STRUCTURE_DEPTH ? 12 : 0;
    unit->detail = detail;
    for (const char *letter = operations; *letter != '\0'; letter++)
        unit->choice[unit->choice_count++].operation =
            (Operation)(strchr(letters, *letter) - letters);
    return unit_settle(unit, &problem);
}

static uint32_t unit_gates(Structure structure, unsigned width, const char *operations, Sense sense,
                           Detail detail, unsigned flags) {
    static Unit unit;
    unit_init(&unit);
    unit.sense = sense;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit.flag[flag] = (flags >> flag & 1) != 0;
    assert_true(settle(&unit, structure, width, operations, detail));
    Netlist netlist;
    build_netlist(&unit, &netlist);
    assert_of_kind(&netlist, detail == DETAIL_NAND ? NODE_NAND : NODE_NOR);
    uint32_t gates = cost_count(&netlist).gates;
    netlist_free(&netlist);
    return gates;
}

enum { CARRY = 1u << FLAG_CARRY, OVERFLOWS = 1u << FLAG_OVERFLOW };

/* Five for the half adder, nine a full adder (above). */
static void test_the_adder(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 64; n += n < 8 ? 1 : 7)
        for (int structure = STRUCTURE_RIPPLE; structure <= STRUCTURE_FEWEST; structure++)
            for (int detail = DETAIL_NAND; detail <= DETAIL_NOR; detail++)
                assert_int_equal(unit_gates((Structure)structure, n, "a", SENSE_NO_BORROW,
                                            (Detail)detail, CARRY),
                                 9 * n - 4);
}

/* The textbook's column is an XOR and a full adder: 13 NANDs, or with the inverse of the line as
 * many NORs. */
static void test_the_textbook_adder_subtractor(void **state) {
    (void)state;
    for (unsigned n = 2; n <= 64; n += n < 8 ? 1 : 7) {
        assert_int_equal(unit_gates(STRUCTURE_RIPPLE, n, "as", SENSE_NO_BORROW, DETAIL_NAND, CARRY),
                         13 * n);
        assert_int_equal(unit_gates(STRUCTURE_RIPPLE, n, "as", SENSE_NO_BORROW, DETAIL_NOR, CARRY),
                         13 * n + 1);
    }
}

/* Counted by hand in fewest_one_kind.c: 6 (7 NORs) and 13 for each further column, with carries;
 * the line's inverse, 8, 13 and 8 in borrow form. A column of this kind takes no fewer than 13
 * NANDs: 12 are impossible by SAT. */
static void test_the_fewest(void **state) {
    (void)state;
    for (unsigned n = 2; n <= 64; n += n < 8 ? 1 : 7) {
        const Structure fewest = STRUCTURE_FEWEST;
        assert_int_equal(unit_gates(fewest, n, "as", SENSE_NO_BORROW, DETAIL_NAND, CARRY),
                         13 * n - 7);
        assert_int_equal(unit_gates(fewest, n, "as", SENSE_NO_BORROW, DETAIL_NOR, CARRY),
                         13 * n - 5);
        for (int detail = DETAIL_NAND; detail <= DETAIL_NOR; detail++) {
            assert_int_equal(unit_gates(fewest, n, "as", SENSE_NO_BORROW, (Detail)detail, 0),
                             13 * n - 9);
            assert_int_equal(unit_gates(fewest, n, "as", SENSE_BORROW, (Detail)detail, CARRY),
                             13 * n - 4);
        }
    }
}

/* Never more than the structure of that name takes otherwise. */
static void test_the_fewest_is_never_more_than_a_ripple(void **state) {
    (void)state;
    static const char *const sets[] = {"a", "s", "r", "A", "S", "i", "d", "n", "as", "AS", "sr"};
    for (size_t k = 0; k < sizeof sets / sizeof sets[0]; k++)
        for (unsigned n = 1; n <= 9; n += 2)
            for (int detail = DETAIL_NAND; detail <= DETAIL_NOR; detail++)
                assert_in_range(unit_gates(STRUCTURE_FEWEST, n, sets[k], SENSE_NO_BORROW,
                                           (Detail)detail, CARRY | OVERFLOWS),
                                0,
                                unit_gates(STRUCTURE_RIPPLE, n, sets[k], SENSE_NO_BORROW,
                                           (Detail)detail, CARRY | OVERFLOWS));
}

/* Exchanges pair by pair find what passes over all pairs do not: measured here, a network of 64
 * columns takes twice the gates it has otherwise, and without them one in a hundred more. */
static void test_exchanges_save_gates(void **state) {
    (void)state;
    static Unit unit;
    unit_init(&unit);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit.flag[flag] = flag == FLAG_CARRY;
    assert_true(settle(&unit, STRUCTURE_KOGGE_STONE, 64, "as", DETAIL_GATES));
    Netlist netlist;
    build_netlist(&unit, &netlist);
    uint32_t gates = cost_count(&netlist).gates;
    for (int k = 0; k < 2; k++)
        assert_in_range(mapped_gates(&netlist, both_kinds[k]), gates, gates * 201 / 100);
    netlist_free(&netlist);
}

/* Every structure's circuit of either kind against the model. */
static void meet_all(const char *const *sets, size_t count, unsigned width, uint64_t random) {
    static Unit unit;
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (size_t k = 0; k < count; k++)
            for (int detail = DETAIL_NAND; detail <= DETAIL_NOR; detail++) {
                unit_init(&unit);
                unit.sense = (Sense)((k + width) % SENSE_COUNT);
                unit.overflow = (Overflow)((k + (unsigned)structure + width) % OVERFLOW_COUNT);
                for (int flag = 0; flag < FLAG_COUNT; flag++)
                    unit.flag[flag] = flag != FLAG_HALF_CARRY || width >= 4;
                if (settle(&unit, (Structure)structure, width, sets[k], (Detail)detail))
                    meet(&unit, random);
            }
}

static void test_narrow_units(void **state) {
    (void)state;
    static const char *const sets[] = {"a", "A",  "s",  "S",  "r",  "i",  "d",   "n",
                                       "p", "as", "sa", "AS", "rs", "id", "isp", "aAsSridnp"};
    for (unsigned width = 1; width <= 5; width++)
        meet_all(sets, sizeof sets / sizeof sets[0], width, 0);
}

static void test_words(void **state) {
    (void)state;
    static const char *const sets[] = {"as", "aAsSridnp"};
    for (unsigned width = 16; width <= 65; width += 49)
        meet_all(sets, 2, width, 60);
}

/* Twice the width takes twice the gates: what is shared and what is not does not change. */
static void test_the_widest(void **state) {
    (void)state;
    for (int detail = DETAIL_NAND; detail <= DETAIL_NOR; detail++)
        assert_int_equal(unit_gates(STRUCTURE_RIPPLE, UNIT_WIDTH_MAX, "a", SENSE_NO_BORROW,
                                    (Detail)detail, CARRY),
                         9 * UNIT_WIDTH_MAX - 4);
}

/* ---- roles --------------------------------------------------------------------------------- */

static void test_gates_keep_their_roles(void **state) {
    (void)state;
    Small s;
    Netlist *n = &s.netlist, mapped;
    open_small(&s);
    Literal differ = netlist_mean(n, netlist_xor(n, s.a, s.b), ROLE_DIFFER, 3);
    Literal both = netlist_mean(n, netlist_and(n, s.a, s.b), ROLE_GENERATED, 3);
    netlist_output(n, PIN_RESULT, 0, differ);
    netlist_output(n, PIN_RESULT, 1, both);
    netlist_finish(n);
    map_netlist(n, NODE_NAND, &mapped);
    static const struct {
        Role role;
        Help help;
        bool complement;
    } expected[] = {{ROLE_GENERATED, HELP_INVERSE, true},
                    {ROLE_DIFFER, HELP_FIRST, false},
                    {ROLE_DIFFER, HELP_SECOND, false},
                    {ROLE_DIFFER, HELP_NONE, false},
                    {ROLE_GENERATED, HELP_NONE, false}};
    assert_int_equal(mapped.node_count, 1 + 4 + 5);
    for (uint32_t k = 0; k < 5; k++) {
        assert_int_equal(mapped.nodes[5 + k].help, expected[k].help);
        assert_int_equal(mapped.nodes[5 + k].complement, expected[k].complement);
        assert_int_equal(mapped.nodes[5 + k].role, expected[k].role);
        assert_int_equal(mapped.nodes[5 + k].index, 3);
    }
    netlist_free(n);
    netlist_free(&mapped);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_any_netlist),
        cmocka_unit_test(test_single_gates),
        cmocka_unit_test(test_a_selection_takes_four),
        cmocka_unit_test(test_a_full_adder_takes_nine),
        cmocka_unit_test(test_a_full_subtractor_takes_nine),
        cmocka_unit_test(test_the_adder),
        cmocka_unit_test(test_the_textbook_adder_subtractor),
        cmocka_unit_test(test_the_fewest),
        cmocka_unit_test(test_the_fewest_is_never_more_than_a_ripple),
        cmocka_unit_test(test_exchanges_save_gates),
        cmocka_unit_test(test_narrow_units),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_the_widest),
        cmocka_unit_test(test_gates_keep_their_roles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
