/* The two witnesses meet: the reference model, from the definitions, and the netlist, from gates.
 * Neither knows the other; here they must say the same at every output pin. */
#include "meeting.h"

static void make(Unit *unit, const Operation *operations, int count, Control control,
                 unsigned width) {
    unit_init(unit);
    unit->width = width;
    unit->control = control;
    unit->detail = DETAIL_GATES;
    unit->choice_count = count;
    for (int k = 0; k < count; k++)
        unit->choice[k].operation = operations[k];
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] = flag != FLAG_HALF_CARRY || width >= 4;
}

static void settle_and_meet(Unit *unit, Sense sense, Overflow overflow, uint64_t random) {
    unit->sense = sense;
    unit->overflow = overflow;
    Problem problem = {STATUS_DONE, ""};
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
    meet(unit, random);
}

/* Every sense and overflow rule of a set of operations. */
static void meet_all_ways(const Operation *operations, int count, Control control, unsigned width,
                          uint64_t random) {
    static Unit unit;
    for (int sense = 0; sense < SENSE_COUNT; sense++)
        for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++) {
            make(&unit, operations, count, control, width);
            settle_and_meet(&unit, (Sense)sense, (Overflow)overflow, random);
        }
}

static const Operation every[OP_COUNT] = {OP_ADD, OP_ADC, OP_SUB, OP_SBC, OP_RSB,
                                          OP_INC, OP_DEC, OP_NEG, OP_PASS};

static void test_each_operation_alone(void **state) {
    (void)state;
    for (unsigned width = 1; width <= 5; width++)
        for (int k = 0; k < OP_COUNT; k++)
            meet_all_ways(&every[k], 1, CONTROL_FIXED, width, 0);
}

static void test_every_pair_in_both_orders(void **state) {
    (void)state;
    const Control styles[] = {CONTROL_HIGH, CONTROL_LOW, CONTROL_ONE_HOT, CONTROL_CODE};
    for (int first = 0; first < OP_COUNT; first++)
        for (int second = 0; second < OP_COUNT; second++)
            for (size_t style = 0; style < 4 && first != second; style++) {
                Operation pair[2] = {every[first], every[second]};
                meet_all_ways(pair, 2, styles[style], 4, 0);
            }
}

static void test_growing_sets(void **state) {
    (void)state;
    for (int count = 3; count <= OP_COUNT; count++) {
        meet_all_ways(every, count, CONTROL_CODE, 4, 0);
        meet_all_ways(every, count, CONTROL_ONE_HOT, 3, 0);
        meet_all_ways(every + OP_COUNT - count, count, CONTROL_CODE, 2, 0);
    }
}

static void test_every_pair_of_8_bit_words(void **state) {
    (void)state;
    const Operation pair[] = {OP_ADD, OP_SUB};
    meet_all_ways(pair, 2, CONTROL_HIGH, 8, 0);
}

static void test_explicit_codes(void **state) {
    (void)state;
    static Unit unit;
    const Operation set[] = {OP_SBC, OP_INC, OP_ADD};
    const uint32_t codes[3] = {9, 2, 14};
    make(&unit, set, 3, CONTROL_CODE, 5);
    unit.code_bits = 4;
    for (int k = 0; k < 3; k++)
        unit.choice[k].code = codes[k];
    settle_and_meet(&unit, SENSE_BORROW, OVERFLOW_WRAP, 0);
}

static void test_wide_words(void **state) {
    (void)state;
    const unsigned widths[] = {12, 16, 31, 32, 33, 63, 64, 65, 128, 1024, 4096};
    for (size_t k = 0; k < sizeof widths / sizeof widths[0]; k++) {
        uint64_t random = widths[k] > 128 ? 64 : 1000;
        static Unit unit;
        make(&unit, every, OP_COUNT, CONTROL_CODE, widths[k]);
        settle_and_meet(&unit, SENSE_BORROW, OVERFLOW_SATURATE_SIGNED, random);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_operation_alone),
        cmocka_unit_test(test_every_pair_in_both_orders),
        cmocka_unit_test(test_growing_sets),
        cmocka_unit_test(test_every_pair_of_8_bit_words),
        cmocka_unit_test(test_explicit_codes),
        cmocka_unit_test(test_wide_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
