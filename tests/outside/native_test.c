/* Every operand of every operation at widths 1 to 8, both senses, both levels of cin and the three
 * ways with overflow, against the C compiler's own int arithmetic. An int holds every exact result,
 * so each flag is its definition: a comparison of two numbers.
 *
 * The three textbook rules of signed overflow are compared with it on the same inputs: the exact
 * result is out of range; the adder's two inputs have equal signs and the result another; the carry
 * into the sign column differs from the carry out of it. Common practice, no source. */
#include "all_operations.h"
#include "model/model.h"

typedef struct {
    unsigned width;
    Sense sense;
    Overflow overflow;
    Operation operation;
    int a, b; /* unsigned readings */
    int cin;
} Case;

static int power(unsigned exponent) {
    return 1 << exponent;
}

static int signed_reading(int value, unsigned width) {
    return value >= power(width - 1) ? value - power(width) : value;
}

/* The level of a borrow as a number: cin as it is, or its complement. */
static int borrow_in(const Case *c) {
    return c->sense == SENSE_BORROW ? c->cin : 1 - c->cin;
}

static int exact(const Case *c, int a, int b) {
    switch (c->operation) {
    case OP_ADD:
        return a + b;
    case OP_ADC:
        return a + b + c->cin;
    case OP_SUB:
        return a - b;
    case OP_SBC:
        return a - b - borrow_in(c);
    case OP_RSB:
        return b - a;
    case OP_INC:
        return a + 1;
    case OP_DEC:
        return a - 1;
    case OP_NEG:
        return -a;
    default:
        return a;
    }
}

static int subtracts(Operation operation) {
    return operation == OP_SUB || operation == OP_SBC || operation == OP_RSB ||
           operation == OP_DEC || operation == OP_NEG;
}

/* The carry pin for an exact result on words of some width. */
static int carry_of(const Case *c, int exact_unsigned, unsigned width) {
    if (!subtracts(c->operation))
        return exact_unsigned >= power(width);
    return c->sense == SENSE_BORROW ? exact_unsigned < 0 : exact_unsigned >= 0;
}

static int clamp(int value, int low, int high) {
    return value < low ? low : value > high ? high : value;
}

static int result_of(const Case *c, int exact_unsigned, int exact_signed) {
    int all = power(c->width) - 1, half = power(c->width - 1);
    if (c->overflow == OVERFLOW_SATURATE_UNSIGNED)
        return clamp(exact_unsigned, 0, all);
    if (c->overflow == OVERFLOW_SATURATE_SIGNED)
        return clamp(exact_signed, -half, half - 1) & all;
    return exact_unsigned & all;
}

static int is_odd(int value) {
    int ones = 0;
    for (; value > 0; value /= 2)
        ones += value % 2;
    return ones % 2;
}

/* Overflow by range, from the adder's inputs by the sign rule, and by the carries about the sign
 * column; a failure if they differ. The adder of every operation: X + Y + c0. */
static int overflow_by_three_rules(const Case *c, int exact_signed) {
    int all = power(c->width) - 1, half = power(c->width - 1);
    int not_a = all - c->a, not_b = all - c->b;
    const struct {
        int x, y, c0;
    } adder[OP_COUNT] = {
        [OP_ADD] = {c->a, c->b, 0},  [OP_ADC] = {c->a, c->b, c->cin},
        [OP_SUB] = {c->a, not_b, 1}, [OP_SBC] = {c->a, not_b, 1 - borrow_in(c)},
        [OP_RSB] = {not_a, c->b, 1}, [OP_INC] = {c->a, 0, 1},
        [OP_DEC] = {c->a, all, 0},   [OP_NEG] = {not_a, 0, 1},
        [OP_PASS] = {c->a, 0, 0},
    };
    int x = adder[c->operation].x, y = adder[c->operation].y, c0 = adder[c->operation].c0;
    int sum = x + y + c0;
    int range = exact_signed < -half || exact_signed > half - 1;
    int sign = (x >= half) == (y >= half) && ((sum & all) >= half) != (x >= half);
    int carries = ((x % half + y % half + c0) >= half) != (sum > all);
    if (range != sign || range != carries)
        fail_msg("overflow rules differ: range %d, signs %d, carries %d; width %u %s a %d b %d",
                 range, sign, carries, c->width, operation_name(c->operation), c->a, c->b);
    return range;
}

static void compare(const Case *c, const char *what, int expected, int got) {
    if (expected != got)
        fail_msg("%s is %d, the model says %d: width %u %s a %d b %d cin %d sense %s overflow %s",
                 what, expected, got, c->width, operation_name(c->operation), c->a, c->b, c->cin,
                 sense_name(c->sense), overflow_name(c->overflow));
}

static void compare_with_model(const Case *c, const Unit *unit) {
    Word a, b;
    Outcome outcome;
    word_set(&a, c->width, (uint64_t)c->a);
    word_set(&b, c->width, (uint64_t)c->b);
    model_outcome(unit, (int)c->operation, &a, &b, c->cin, &outcome);

    int exact_unsigned = exact(c, c->a, c->b);
    int exact_signed = exact(c, signed_reading(c->a, c->width), signed_reading(c->b, c->width));
    int exact_low = exact(c, c->a % 16, c->b % 16);
    int result = result_of(c, exact_unsigned, exact_signed);
    const int flag[FLAG_COUNT] = {
        [FLAG_CARRY] = carry_of(c, exact_unsigned, c->width),
        [FLAG_OVERFLOW] = overflow_by_three_rules(c, exact_signed),
        [FLAG_ZERO] = result == 0,
        [FLAG_NEGATIVE] = result >= power(c->width - 1),
        [FLAG_LESS_SIGNED] = exact_signed < 0,
        [FLAG_LESS_UNSIGNED] = exact_unsigned < 0,
        [FLAG_PARITY] = is_odd(result),
        [FLAG_HALF_CARRY] = c->width >= 4 && carry_of(c, exact_low, 4),
    };
    compare(c, "result", result, (int)outcome.result.limb[0]);
    for (int f = 0; f < FLAG_COUNT; f++)
        compare(c, flag_name((Flag)f), flag[f], outcome.flag[f]);
}

static void every_operand(Case *c, const Unit *unit) {
    for (int op = 0; op < OP_COUNT; op++)
        for (c->cin = 0; c->cin < 2; c->cin++)
            for (c->a = 0; c->a < power(c->width); c->a++)
                for (c->b = 0; c->b < power(c->width); c->b++) {
                    c->operation = (Operation)op;
                    compare_with_model(c, unit);
                }
}

static void every_unit(unsigned width) {
    for (int sense = 0; sense < SENSE_COUNT; sense++)
        for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++) {
            Unit unit;
            all_operations(&unit, width, (Sense)sense, (Overflow)overflow);
            Case c = {.width = width, .sense = (Sense)sense, .overflow = (Overflow)overflow};
            every_operand(&c, &unit);
        }
}

static void test_every_input_at_widths_1_to_7(void **state) {
    (void)state;
    for (unsigned width = 1; width <= 7; width++)
        every_unit(width);
}

static void test_every_input_at_width_8(void **state) {
    (void)state;
    every_unit(8);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_input_at_widths_1_to_7),
        cmocka_unit_test(test_every_input_at_width_8),
    };
    return cmocka_run_group_tests_name("native", tests, NULL, NULL);
}
