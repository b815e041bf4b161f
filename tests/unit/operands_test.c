/* The operand row against the definition of each operation, X + Y + c0, for every set of
 * operations: the table of control signals, and the gates that follow from it. -v = not v + 1 in
 * two's complement: common practice, no source. */
#include "gates/operands.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* What an operation's adder is given, on words of 2 bits. */
enum { WIDTH = 2, MASK = 3 };

typedef struct {
    unsigned a, b, cin;
} Given;

typedef struct {
    unsigned x, y, first;
} Row;

/* By definition. cin is a carry for adc; for sbc it is no borrow, or, by the sense, a borrow. */
static Row definition(Operation operation, Sense sense, Given given) {
    unsigned a = given.a, not_a = given.a ^ MASK, b = given.b, not_b = given.b ^ MASK;
    switch (operation) {
    case OP_ADD:
        return (Row){a, b, 0};
    case OP_ADC:
        return (Row){a, b, given.cin};
    case OP_SUB:
        return (Row){a, not_b, 1};
    case OP_SBC:
        return (Row){a, not_b, sense == SENSE_BORROW ? !given.cin : given.cin};
    case OP_RSB:
        return (Row){not_a, b, 1};
    case OP_INC:
        return (Row){a, 0, 1};
    case OP_DEC:
        return (Row){a, MASK, 0};
    case OP_NEG:
        return (Row){not_a, 0, 1};
    default:
        return (Row){a, 0, 0};
    }
}

static bool subtracts(Operation operation) {
    return operation == OP_SUB || operation == OP_SBC || operation == OP_RSB ||
           operation == OP_DEC || operation == OP_NEG;
}

/* What the signals' levels make of the operands: the three lines at the head of operands.h. */
static Row row_of(const bool *level, Given given) {
    unsigned y = level[SIGNAL_USE_B] ? given.b : 0;
    unsigned cin = given.cin ^ level[SIGNAL_INVERT_CIN];
    return (Row){.x = level[SIGNAL_INVERT_A] ? given.a ^ MASK : given.a,
                 .y = level[SIGNAL_INVERT_B] ? y ^ MASK : y,
                 .first = level[SIGNAL_SET_CARRY] || (level[SIGNAL_USE_CIN] && cin)};
}

static void assert_rows(const Unit *unit, Operation operation, Row got, Row expected) {
    if (got.x != expected.x || got.y != expected.y || got.first != expected.first)
        fail_msg("%s: %s gets %u + %u + %u, not %u + %u + %u", unit->name,
                 operation_name(operation), got.x, got.y, got.first, expected.x, expected.y,
                 expected.first);
}

static Given given_of(unsigned number) { /* 0 ... 31 */
    return (Given){number & MASK, number >> 2 & MASK, number >> 4};
}

/* ---- every set of operations -------------------------------------------------------------- */

/* The operations whose bits are set, in the table's order, or against it. */
static void make(Unit *unit, unsigned set, bool backwards, Control control, Sense sense) {
    Problem problem = {STATUS_DONE, ""};
    unit_init(unit);
    unit->width = WIDTH;
    unit->detail = DETAIL_GATES;
    unit->control = control;
    unit->sense = sense;
    unit->choice_count = 0;
    for (int k = 0; k < OP_COUNT; k++) {
        int operation = backwards ? OP_COUNT - 1 - k : k;
        if (set >> operation & 1)
            unit->choice[unit->choice_count++].operation = (Operation)operation;
    }
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
}

typedef void Check(const Unit *unit);

static bool allowed(Control control, int count) {
    switch (control) {
    case CONTROL_FIXED:
        return count == 1;
    case CONTROL_HIGH:
    case CONTROL_LOW:
        return count == 2;
    default:
        return count >= 2;
    }
}

static void each_unit(Check *check) {
    static Unit unit;
    for (unsigned set = 1; set < 1u << OP_COUNT; set++) {
        int count = 0;
        for (int k = 0; k < OP_COUNT; k++)
            count += (int)(set >> k & 1);
        for (int control = CONTROL_FIXED; control < CONTROL_COUNT; control++)
            for (int way = 0; way < 4 && allowed((Control)control, count); way++) {
                make(&unit, set, way & 1, (Control)control,
                     way & 2 ? SENSE_BORROW : SENSE_NO_BORROW);
                check(&unit);
            }
    }
}

/* ---- the table ---------------------------------------------------------------------------- */

/* The level of every signal for a choice, with the free ones set by the bits of freely. */
static void levels_of(const Unit *unit, int choice, unsigned freely, bool *level) {
    for (int k = 0; k < SIGNAL_COUNT; k++) {
        SignalPlan plan = operands_signal(unit, (Signal)k);
        level[k] = plan.level == LEVEL_VARIES ? plan.on >> choice & 1 : plan.level == LEVEL_1;
        if (plan.free >> choice & 1)
            level[k] = freely >> k & 1;
    }
}

static void check_levels(const Unit *unit) {
    for (int choice = 0; choice < unit->choice_count; choice++) {
        Operation operation = unit->choice[choice].operation;
        for (unsigned freely = 0; freely < 1u << SIGNAL_COUNT; freely += (1u << SIGNAL_COUNT) - 1) {
            bool level[SIGNAL_COUNT];
            levels_of(unit, choice, freely, level);
            for (unsigned number = 0; number < 32; number++)
                assert_rows(unit, operation, row_of(level, given_of(number)),
                            definition(operation, unit->sense, given_of(number)));
            assert_int_equal(level[SIGNAL_SUBTRACTING], subtracts(operation));
            assert_true(level[SIGNAL_ACTIVE]);
        }
    }
}

static void test_levels_follow_from_the_definitions(void **state) {
    (void)state;
    each_unit(check_levels);
}

/* The same with the free signals in every combination; a set of all operations has every entry. */
static void test_free_entries_are_free(void **state) {
    (void)state;
    static Unit unit;
    for (int sense = 0; sense < SENSE_COUNT; sense++) {
        make(&unit, (1u << OP_COUNT) - 1, false, CONTROL_CODE, (Sense)sense);
        for (int choice = 0; choice < unit.choice_count; choice++)
            for (unsigned freely = 0; freely < 1u << SIGNAL_COUNT; freely++) {
                bool level[SIGNAL_COUNT];
                levels_of(&unit, choice, freely, level);
                Operation operation = unit.choice[choice].operation;
                for (unsigned number = 0; number < 32; number++)
                    assert_rows(&unit, operation, row_of(level, given_of(number)),
                                definition(operation, unit.sense, given_of(number)));
            }
    }
}

/* on is about choices that there are, says nothing where free, and a signal varies only where two
 * choices disagree, or where nothing may be requested and it says that something is. */
static void check_plans(const Unit *unit) {
    uint32_t all = (UINT32_C(1) << unit->choice_count) - 1;
    for (int k = 0; k < SIGNAL_COUNT; k++) {
        SignalPlan plan = operands_signal(unit, (Signal)k);
        uint32_t off = all & ~plan.on & ~plan.free;
        assert_int_equal((plan.on | plan.free) & ~all, 0);
        assert_int_equal(plan.on & plan.free, 0);
        bool idles = k == SIGNAL_ACTIVE && unit_can_idle(unit);
        Level expected = plan.on == 0 ? LEVEL_0 : off == 0 && !idles ? LEVEL_1 : LEVEL_VARIES;
        assert_int_equal(plan.level, expected);
    }
}

static void test_signals_are_constant_where_choices_agree(void **state) {
    (void)state;
    each_unit(check_plans);
}

/* ---- the gates ---------------------------------------------------------------------------- */

static void drive(const Unit *unit, const Netlist *netlist, uint32_t control, uint64_t *values) {
    for (uint32_t k = 1; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (node->kind != NODE_INPUT)
            continue;
        bool high = node->pin == PIN_OP ? control >> node->bit & 1 : control & 1;
        for (int choice = 0; choice < unit->choice_count; choice++)
            if ((int)node->pin == PIN_DO + (int)unit->choice[choice].operation)
                high = control >> choice & 1;
        values[k] = high && node->pin < PIN_CIN ? UINT64_MAX : 0;
        for (unsigned v = 0; v < 64 && node->pin >= PIN_CIN; v++) {
            Given given = given_of(v % 32);
            unsigned word = node->pin == PIN_A ? given.a : node->pin == PIN_B ? given.b : given.cin;
            values[k] |= (uint64_t)(word >> node->bit & 1) << v;
        }
    }
}

static unsigned word_at(const uint64_t *values, const Literal *bits, unsigned v) {
    unsigned word = 0;
    for (unsigned i = 0; i < WIDTH; i++)
        word |= (unsigned)(netlist_value(values, bits[i]) >> v & 1) << i;
    return word;
}

static void check_choice(const Unit *unit, const Netlist *netlist, const Operands *operands,
                         int choice) {
    uint64_t values[1024] = {0};
    assert_true(netlist->node_count <= 1024);
    drive(unit, netlist, unit_control_value(unit, choice), values);
    netlist_evaluate(netlist, values);
    Operation operation = unit->choice[choice].operation;
    for (unsigned v = 0; v < 32; v++) {
        Row got = {word_at(values, operands->x, v), word_at(values, operands->y, v),
                   (unsigned)(netlist_value(values, operands->first) >> v & 1)};
        assert_rows(unit, operation, got, definition(operation, unit->sense, given_of(v)));
    }
    uint64_t subtracting = netlist_value(values, operands->signal[SIGNAL_SUBTRACTING]);
    assert_true(subtracting == (subtracts(operation) ? UINT64_MAX : 0));
    assert_true(netlist_value(values, operands->signal[SIGNAL_ACTIVE]) == UINT64_MAX);
}

static void check_gates(const Unit *unit) {
    Netlist netlist;
    Operands operands;
    netlist_init(&netlist);
    operands_build(unit, &netlist, &operands);
    for (int choice = 0; choice < unit->choice_count; choice++)
        check_choice(unit, &netlist, &operands, choice);
    /* Values that ask for nothing, other than several requests at once. */
    for (uint32_t value = 0; value < UINT32_C(1) << unit_control_bits(unit); value++) {
        uint64_t values[1024] = {0};
        if (unit_control_choice(unit, value) != UNIT_NOTHING ||
            !unit_control_is_contract(unit, value))
            continue;
        drive(unit, &netlist, value, values);
        netlist_evaluate(&netlist, values);
        assert_true(netlist_value(values, operands.signal[SIGNAL_ACTIVE]) == 0);
    }
    operands_free(&operands);
    netlist_free(&netlist);
}

static void test_gates_follow_from_the_definitions(void **state) {
    (void)state;
    each_unit(check_gates);
}

/* Add and subtract with one line: an XOR on each bit of b, and the line as the first carry. */
static void test_the_textbook_row(void **state) {
    (void)state;
    static Unit unit;
    Netlist netlist;
    Operands operands;
    make(&unit, 1u << OP_ADD | 1u << OP_SUB, false, CONTROL_HIGH, SENSE_NO_BORROW);
    netlist_init(&netlist);
    operands_build(&unit, &netlist, &operands);
    Literal line = 2, a[WIDTH] = {4, 6}, b[WIDTH] = {8, 10}; /* the inputs in the order of Pin */
    assert_int_equal(netlist.nodes[literal_node(line)].pin, PIN_LINE);
    assert_int_equal(operands.first, line);
    for (unsigned i = 0; i < WIDTH; i++) {
        const Node *row = &netlist.nodes[literal_node(operands.y[i])];
        assert_int_equal(operands.x[i], a[i]);
        assert_int_equal(row->kind, NODE_XOR);
        assert_int_equal(row->in[0], b[i]);
        assert_int_equal(row->in[1], line);
    }
    assert_int_equal(netlist.node_count, 1 + 5 + WIDTH);
    operands_free(&operands);
    netlist_free(&netlist);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_levels_follow_from_the_definitions),
        cmocka_unit_test(test_free_entries_are_free),
        cmocka_unit_test(test_signals_are_constant_where_choices_agree),
        cmocka_unit_test(test_gates_follow_from_the_definitions),
        cmocka_unit_test(test_the_textbook_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
